// The whole hub to true scale: where the hand is, what holds the axle, and the handle of the clamp.

const PULL = 60; // px that a handle without a pivot is pulled in or up

export class Whole {
  constructor(host, data) {
    this.svg = draw(host, "svg", { role: "group", "aria-label": "The whole hub, true to scale" });
    this.data = data;
    this.sheet = new Sheet(this.svg, data.sheets.whole, data.paints);
    for (const rim of ["rim top", "rim bottom"]) this.sheet.hideGroup(rim, true);
    this.handles = this.sheet.handlesOf("lever");
    this.where = draw(this.svg, "text", { class: "strong" });
    this.how = draw(this.svg, "text", { class: "muted" });
  }

  place(width, height, kind) {
    const size = 13, spare = kind === "phone", [left, top, wide, high] = this.data.sheets.whole.view;
    const words = spare ? 0 : 2 * size + 12;
    const scale = Math.min((width - 16) / wide, (height - words - 8) / high);
    set(this.svg, { width, height, viewBox: `0 0 ${width} ${height}` });
    this.sheet.place({
      scale, size, x: width / 2 - (left + wide / 2) * scale, y: height / 2 - (top + high / 2) * scale,
    });
    set(this.where, { x: 14, y: 9 + size, "font-size": `${size}px` });
    set(this.how, { x: 14, y: height - 10, "font-size": `${size}px` });
    this.how.textContent = spare ? "" : "true to scale; upper half cut";
    this.spare = spare;
  }

  show(place, hand) {
    this.sheet.move(place.vars, place.stage);
    const clamp = hand.lever >= 1 ? "clamped" : "not clamped";
    put(this.where, this.spare ? "" : hand.nut >= 1 ? `In the frame, ${clamp}` : "In the vice");
  }

  // How far a move of the pointer takes a handle, as a share of its way: round its pivot, or in and up where it has none.
  pulled(before, event, { turn, about, move }) {
    const box = this.svg.getBoundingClientRect(), at = [event.clientX - box.left, event.clientY - box.top];
    if (!before) return { at, by: 0 };
    const [dx, dy] = [at[0] - before[0], at[1] - before[1]];
    if (!turn) return { at, by: (dx * Math.sign(move.lever) - dy) / PULL };
    const [cx, cy] = this.sheet.px(about), way = ([x, y]) => Math.atan2(x - cx, cy - y) / RADIAN;
    return { at, by: wrapDegrees(way(at) - way(before)) / turn.lever };
  }
}
