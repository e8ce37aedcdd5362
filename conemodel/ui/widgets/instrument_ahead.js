// Answers a hand before the page does. The instrument asks by an event on the document, and is told by another.

class Ahead {
  constructor() {
    this.ask = (event) => {
      event.preventDefault(); // somebody answers
      this.component.setStateValue("hand", event.detail);
    };
    document.addEventListener("conemodel-hand", this.ask);
  }

  take(answer) {
    document.dispatchEvent(new CustomEvent("conemodel-exact", { detail: answer }));
  }

  close() {
    document.removeEventListener("conemodel-hand", this.ask);
  }
}

export default (component) => standAt(component, () => new Ahead());
