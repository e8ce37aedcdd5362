// One of two pictures, by the width of the window; it is drawn again only when it changed.

class Picture {
  constructor(root) {
    this.frame = root.querySelector(".picture");
    this.narrow = window.matchMedia("(max-width: 640px)");
    this.turned = () => this.draw();
    this.narrow.addEventListener("change", this.turned);
  }

  take(data) {
    this.data = data;
    this.draw();
  }

  draw() {
    const { frame, data } = this, kind = this.narrow.matches ? "narrow" : "wide";
    if (this.drawn !== data[kind]) {
      frame.innerHTML = this.drawn = data[kind];
      frame.firstElementChild.setAttribute("aria-hidden", "true");
    }
    frame.className = `picture ${kind} ${data.name}`;
    frame.setAttribute("aria-label", data.alt);
  }

  close() {
    this.narrow.removeEventListener("change", this.turned);
  }
}

export default (component) => standAt(component, (root) => new Picture(root));
