// The dial: the adjustable side seen from outside, two spanners on a clock face.

export class Dial {
  constructor(host, data) {
    this.data = data;
    this.svg = draw(host, "svg", { role: "group", "aria-label": "The cone on a clock face" });
    this.sheet = new Sheet(this.svg, data.sheets.dial, data.paints);
    this.sheet.root.classList.add("grab");
    this.cone = this.sheet.handleOf("angle");
    this.nut = this.sheet.handleOf("nut");
    this.nutRest = reachOf(this.nut.parts).way;
    // Which way the spanner goes on the clock for a degree out.
    this.way = Math.sign(this.cone.turn.angle);
    const words = (name) => draw(this.svg, "text", { class: name });
    [this.turned, this.note, this.nutName, this.nutState] = ["turned", "muted", "", "muted"].map(words);
    [this.turned, this.note, this.nutName, this.nutState].forEach((node) => node.classList.add("told"));
  }

  place(width, height, kind, hide) {
    const size = 13, narrow = kind === "phone", [left, top, wide, high] = this.data.sheets.dial.view, foot = { wide: 24, tablet: 44, phone: 0 }[kind];
    const scale = Math.min((width - 16) / wide, (height - foot) / high);
    // On a phone it stands as far right as it goes, and the words beside it.
    const x = narrow ? width - 8 - (left + wide) * scale : width / 2 - (left + wide / 2) * scale;
    Object.assign(this, { x, y: (height - foot) / 2 - (top + high / 2) * scale, scale, narrow });
    set(this.svg, { width, height, viewBox: `0 0 ${width} ${height}` });
    this.sheet.place({ scale, x: this.x, y: this.y, size, width });
    this.sheet.hideGroup("good arc", hide.has("good"));
    this.placeWords(width, height, size);
  }

  placeWords(width, height, size) {
    const at = (node, x, y, anchor, px) => set(node, { x, y, "text-anchor": anchor, "font-size": `${px}px` });
    const low = height - 12, above = low - size - 6;
    at(this.turned, 14, this.narrow ? above - size - 6 : above, "start", this.narrow ? size + 4 : 22);
    at(this.note, 14, low, "start", size);
    at(this.nutName, width - 14, above, "end", size);
    if (this.narrow) at(this.nutState, 14, above, "start", size);
    else at(this.nutState, width - 14, low, "end", size);
  }

  // A spanner that was put on the other way points away from the pointer.
  show(place, hand) {
    this.sheet.move(place.vars, place.stage);
    if (this.regripped !== hand.regripped) {
      this.regripped = hand.regripped;
      for (const part of ["cone-spanner", "of-cone-spanner", "hole"]) this.sheet.find(part)?.setAttribute("transform", `rotate(${hand.regripped ? 180 : 0})`);
    }
  }

  tell(hand, note) {
    put(this.turned, degrees(hand.angle) < 1 ? "At finger contact" : `${clockMinutes(hand.angle)} ${side(hand.angle)}`);
    put(this.note, note || `on a clock face; ${degrees(hand.angle)}°`);
    const nut = hand.nut >= 1 ? "tight" : hand.nut <= 0 ? "loose" : "turning";
    put(this.nutName, this.narrow ? "" : "locknut");
    put(this.nutState, this.narrow ? `locknut ${nut}` : nut);
  }

  // How far the locknut's spanner swings from loose to tight, and where it stands [° clockwise].
  get nutSwing() {
    return this.nut.turn.nut;
  }

  nutAngle(nut) {
    return this.nutRest + this.nutSwing * nut;
  }

  // Clockwise angle of an event about the dial's middle, and how far out it is as a share of the ring.
  about(event) {
    const box = this.svg.getBoundingClientRect(), dx = event.clientX - box.left - this.x, dy = event.clientY - box.top - this.y;
    return { way: Math.atan2(dx, -dy) / RADIAN, far: Math.hypot(dx, dy) / (100 * this.scale) };
  }
}
