// Puts the focus on the act that comes next once what had it is gone from the page. It stands there all the while.

const LOOKS_MS = 50, LONGEST = 100;

class NextFocus {
  constructor() {
    this.note = ({ target }) => {
      this.had = target;
    };
    document.addEventListener("focusin", this.note);
  }

  take({ place }) {
    clearInterval(this.looking);
    this.looks = LONGEST;
    if (place && this.had) this.looking = setInterval(() => this.look(place), LOOKS_MS);
  }

  look(place) {
    const buttons = [...document.querySelectorAll(`.st-key-${place} button`)], free = document.activeElement === document.body;
    if ((this.looks -= 1) && (!free || this.had.isConnected || !buttons.length)) return;
    clearInterval(this.looking);
    if (free) (buttons.find((button) => button.getAttribute("kind") === "primary") ?? buttons[0])?.focus({ preventScroll: true });
  }

  close() {
    clearInterval(this.looking);
    document.removeEventListener("focusin", this.note);
  }
}

export default (component) => standAt(component, () => new NextFocus());
