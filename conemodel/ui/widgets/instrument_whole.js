// The whole hub to true scale: where the hand is, what holds the axle, and the handle of the clamp.

const NEAR = 4; // px from a pivot where a way round it means nothing

export class Whole {
  constructor(host, data) {
    this.svg = draw(host, "svg", { role: "group", "aria-label": "The whole hub, true to scale" });
    this.data = data;
    this.sheet = new Sheet(this.svg, data.sheets.whole, data.paints);
    for (const rim of ["rim top", "rim bottom"]) this.sheet.hideGroup(rim, true);
    this.handle = this.sheet.handleOf("lever");
    this.where = draw(this.svg, "text", { class: "strong" });
    this.how = draw(this.svg, "text", { class: "muted" });
  }

  // The hub, and beside it what a hand turns.
  get view() {
    const { held, view } = this.data.sheets.whole;
    return held ?? view;
  }

  place(width, height, kind) {
    const size = 13, spare = kind === "phone", [left, top, wide, high] = this.view;
    const words = spare ? 0 : 2 * size + 12;
    const scale = Math.min((width - 16) / wide, (height - words - 8) / high);
    set(this.svg, { width, height, viewBox: `0 0 ${width} ${height}` });
    this.sheet.place({
      scale, size, width, x: width / 2 - (left + wide / 2) * scale, y: height / 2 - (top + high / 2) * scale,
    });
    set(this.where, { x: 14, y: 9 + size, "font-size": `${size}px` });
    set(this.how, { x: 14, y: height - 10, "font-size": `${size}px` });
    this.how.textContent = spare ? "" : "true to scale; upper half cut";
    this.spare = spare;
  }

  show(place) {
    this.sheet.move(place.vars, place.stage);
  }

  tell(hand) {
    put(this.where, this.spare ? "" : hand.nut >= 1 ? `In the frame, ${clampWords(this.data.clamp, hand.lever)}` : "In the vice");
  }

  // How far a move of the pointer takes the handle round its pivot, as a share of its way.
  pulled(before, event) {
    const { node, turn, about } = this.handle, { x, y } = new DOMPoint(...about).matrixTransform(node.parentNode.getScreenCTM());
    const at = [event.clientX - x, event.clientY - y], near = (place) => Math.hypot(...place) < NEAR;
    if (!before || near(at) || near(before)) return { at, by: 0 };
    const way = ([across, down]) => Math.atan2(across, -down) / RADIAN;
    return { at, by: wrapDegrees(way(at) - way(before)) / turn.lever };
  }
}
