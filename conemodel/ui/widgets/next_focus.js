// Puts the focus on what an act of the person at the page has brought there, and brings that into view. It stands on the
// page all the while; what the page opens with is no such act.

const LOOKS_MS = 50, LONGEST = 1200; // a minute, on a slow machine

class NextFocus {
  constructor() {
    this.stop = () => clearInterval(this.looking);
    for (const act of ["pointerdown", "keydown"]) document.addEventListener(act, this.stop, { capture: true });
  }

  take({ place, turn }) {
    if (turn === this.turn) return;
    const opened = this.turn === undefined;
    this.turn = turn;
    this.stop();
    this.looks = LONGEST;
    if (place && !opened) this.looking = setInterval(() => this.look(place), LOOKS_MS);
  }

  look(place) {
    if (!document.querySelector("[data-test-script-state=notRunning]")) return;
    const box = document.querySelector(`.st-key-${place}`), landing = box && findLanding(box);
    if (!landing && (this.looks -= 1)) return;
    this.stop();
    landing?.focus({ preventScroll: true });
    document.querySelector("[data-testid=stMain]").scrollTo(0, 0);
    if (box?.offsetHeight < innerHeight) box.scrollIntoView({ block: "nearest" });
  }

  close() {
    this.stop();
    for (const act of ["pointerdown", "keydown"]) document.removeEventListener(act, this.stop, { capture: true });
  }
}

// A widget stands in a tree of its own.
function findLanding(box) {
  const trees = [box, ...[...box.querySelectorAll("*")].map(({ shadowRoot }) => shadowRoot)];
  return trees.map((tree) => tree?.querySelector(".cm-landing")).find(Boolean);
}

export default (component) => standAt(component, () => new NextFocus());
