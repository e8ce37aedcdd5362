// The hub under the gesture: one view of the instrument's drawing, which the widgets only place and move.

class BenchHub {
  constructor(svg) {
    this.svg = svg;
  }

  // The same view again is left as it is.
  take(drawing) {
    const drawn = JSON.stringify([drawing.sheet, drawing.paints]);
    this.drawing = drawing;
    if (drawn === this.drawn) return;
    this.drawn = drawn;
    this.svg.replaceChildren();
    this.sheet = new Sheet(this.svg, drawing.sheet, drawing.paints);
  }

  // Fits a box of the view [mm] into the middle of a frame of the picture [px].
  place(width, height, [left, top, wide, high], [x, y, w, h]) {
    const scale = Math.min(w / wide, h / high), placed = [width, height, left, top, wide, high, x, y, w, h].join();
    if (placed === this.placed && this.sheet.root.hasAttribute("transform")) return;
    this.placed = placed;
    set(this.svg, { width, height, viewBox: `0 0 ${width} ${height}` });
    this.sheet.place({ scale, size: 13, width, x: x + w / 2 - (left + wide / 2) * scale, y: y + h / 2 - (top + high / 2) * scale });
  }

  move(vars) {
    this.sheet.move({ ...this.drawing.vars, ...vars }, this.drawing.stage);
  }

  get scale() {
    return this.sheet.scale;
  }

  px(point) {
    return this.sheet.px(point);
  }

  // Where the axle is, seen end on [px].
  get middle() {
    const [x, y] = this.px([0, 0]);
    return { x, y };
  }

  // Middle, half the width, top and foot of a part where it is drawn [mm]; without a group, of all that are called so.
  boxOf(group, part) {
    const groups = group ? [this.sheet.groups.get(group)] : [...this.sheet.groups.values()];
    const corners = groups.flatMap(({ parts }) => parts).filter(({ name }) => name === part).flatMap(({ d }) => cornersOf(d));
    const [xs, ys] = [0, 1].map((i) => corners.map((corner) => corner[i]));
    const [left, right, top, foot] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    return { x: (left + right) / 2, y: (top + foot) / 2, r: (right - left) / 2, top, foot };
  }
}
