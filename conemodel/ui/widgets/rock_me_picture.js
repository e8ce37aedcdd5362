// The wheel to be rocked, with one ball of it under a lens: the two sheets of the hub in one picture.

const RAYS = 8; // of a flash
const FLASH_MS = 380;
const NAMED = ["ball", "cup", "cone"]; // under the lens
const BESIDE = ["was backed_off", "was locked"]; // no concern of who only rocks and clamps
const ARROWS = 1.4; // mm drawn: a narrower gap has no room for its arrows

// px of the picture: where the wheel has room, and the lens.
const PLACES = {
  wide: (w, h) => {
    const r = Math.min(0.17 * w, 0.37 * h);
    return { lens: [r + 18, h - r - 14, r], wheel: [0.4 * w, 6, 0.6 * w - 8, h - 12] };
  },
  tablet: (w, h) => {
    const r = Math.min(0.24 * w, 0.23 * h);
    return { lens: [r + 14, h - r - 14, r], wheel: [0.2 * w, 8, 0.8 * w - 8, 0.62 * h] };
  },
  phone: (w, h) => {
    const r = Math.min(0.33 * w, 0.175 * h);
    return { lens: [r + 4, h - r - 8, r], wheel: [2, 0.165 * h, w - 4, 0.49 * h] };
  },
};

const STEPS = ["rock", "knocks", "shut", "stops"]; // those that have an arrow

const middleOf = (points) => [0, 1].map((i) => points.reduce((sum, point) => sum + point[i], 0) / points.length);

function boxOf(points) {
  const [xs, ys] = [0, 1].map((i) => points.map((point) => point[i]));
  const [left, right, top, foot] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  return { x: (left + right) / 2, y: (top + foot) / 2, r: (right - left) / 2 };
}

// A pull on a handle is measured as on any other picture of the whole hub.
export class RockedHub extends Whole {
  constructor(host, data) {
    super(host, data);
    for (const rim of ["rim top", "rim bottom"]) this.sheet.hideGroup(rim, false);
    this.svg.setAttribute("aria-label", "A wheel hub cut open above its axle, and one of its balls enlarged");
    this.rays = draw(null, "path", { class: "rays" });
    this.svg.insertBefore(this.rays, this.sheet.root);
    this.buildLens();
    this.measure();
    const arrows = draw(this.svg, "g", { class: "arrows" });
    this.arrows = Object.fromEntries(STEPS.map((step) => [step, draw(arrows, "path")]));
    this.holdRims();
  }

  // All of the tyre is to be taken hold of, its hollow too; what lies on it keeps its name.
  holdRims() {
    for (const rim of ["rim top", "rim bottom"]) {
      const { node, parts } = this.sheet.groups.get(rim), held = parts.filter(({ name }) => ["tyre", "rim"].includes(name));
      const corners = held.flatMap(({ d }) => cornersOf(d)), [xs, ys] = [0, 1].map((i) => corners.map((corner) => corner[i]));
      const [x, y] = [Math.min(...xs), Math.min(...ys)];
      node.prepend(draw(null, "rect", { class: "reach", x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y }));
    }
  }

  buildLens() {
    const clip = draw(draw(this.svg, "defs"), "clipPath", { id: "rock-me-lens" });
    this.window = draw(clip, "circle");
    this.glass = draw(this.svg, "circle", { class: "glass" });
    const inside = draw(this.svg, "g", { "clip-path": "url(#rock-me-lens)" });
    this.close = new Sheet(inside, this.data.sheets.close, this.data.paints);
    this.close.root.classList.add("close");
    this.close.labels = this.close.labels.filter(({ node, words }) => {
      const kept = NAMED.includes(words);
      if (!kept) node.remove();
      return kept;
    });
    for (const name of BESIDE) this.close.hideGroup(name, true);
    this.spots = draw(this.close.groups.get("ball").node, "g", { class: "spots" });
    this.ring = draw(this.svg, "circle", { class: "ring" });
    this.flashes = ["flash", "flash far"].map((name) => draw(this.svg, "path", { class: name }));
  }

  // Balls, contact and lens, read off the drawing [mm of their sheets].
  measure() {
    const corners = (sheet, group, part, which = 0) => {
      const found = sheet.groups.get(group).parts.filter(({ name }) => name === part);
      return cornersOf(found[which].d);
    };
    this.ball = boxOf(corners(this.close, "ball", "ball"));
    this.touch = middleOf(corners(this.close, "touches cone", "touches"));
    this.seen = boxOf(corners(this.sheet, "lens", "lens"));
    const balls = [0, 1].map((which) => boxOf(corners(this.sheet, "bearings", "ball", which)));
    this.far = balls.find(({ x }) => Math.sign(x) !== this.data.out);
    this.roof = Math.min(...corners(this.sheet, "rim top", "tyre").map(([, y]) => y));
    this.rimFoot = Math.max(...corners(this.sheet, "rim top", "rim").map(([, y]) => y));
    this.lean = this.leanFor(this.data);
    this.close.labels.find(({ group }) => group === "cone").at = [
      this.touch[0] + 0.55 * this.data.out * this.ball.r, this.touch[1] + 0.4 * this.ball.r,
    ];
    // Across the line of contact the ball rolls; its marks pass along that line.
    const [dx, dy] = [this.touch[0] - this.ball.x, this.touch[1] - this.ball.y], long = Math.hypot(dx, dy);
    this.axis = [dx / long, dy / long];
  }

  // Play at the rim is not quite in proportion to end play; the rim is to go as far as it was predicted to.
  leanFor({ factor, rim, exact }) {
    const { move, parent } = this.sheet.groups.get("rim top"), { turn } = this.sheet.groups.get(parent);
    const goes = Math.abs(move.sway + turn.sway * RADIAN * Math.abs(this.rimFoot));
    return (factor * rim) / (2 * goes * exact.end_play.locked);
  }

  place(width, height, kind) {
    const [x, y, wide, high] = this.data.sheets.whole.wide, at = PLACES[kind](width, height), size = 13;
    set(this.svg, { width, height, viewBox: `0 0 ${width} ${height}` });
    // where nothing stands beside the wheel there must be room for the lever on its way
    const more = kind === "phone" ? x - this.view[0] : 0;
    const [left, top, w, h] = at.wheel, scale = Math.min(w / (wide + more), h / high);
    this.sheet.place({ scale, size, x: left + w - (x + wide) * scale, y: top + h / 2 - (y + high / 2) * scale });
    const [cx, cy, r] = at.lens, large = r / this.seen.r, middle = [this.ball.x, this.ball.y];
    this.close.place({ scale: large, size, x: cx - middle[0] * large, y: cy - middle[1] * large });
    for (const circle of [this.window, this.glass, this.ring]) set(circle, { cx, cy, r });
    this.placeRays([cx, cy], r, this.sheet.px([this.seen.x, this.seen.y]), this.seen.r * scale);
    this.placeArrows(scale);
    return { cx, cy, r };
  }

  // From the lens to what it shows: the tangents of both circles.
  placeRays([ax, ay], wide, [bx, by], narrow) {
    const way = Math.atan2(by - ay, bx - ax), open = Math.acos((wide - narrow) / Math.hypot(bx - ax, by - ay));
    const line = (turn) => {
      const [c, s] = [Math.cos(way + turn), Math.sin(way + turn)];
      return `M${ax + wide * c} ${ay + wide * s}L${bx + narrow * c} ${by + narrow * s}`;
    };
    set(this.rays, { d: line(open) + line(-open) });
  }

  // Beside the tyre, from side to side or round and round; beside the lever, the way it goes.
  placeArrows(scale) {
    const [x, y] = this.sheet.px([0, (this.roof + this.rimFoot) / 2]), off = 19 * scale, long = Math.max(11 * scale, 18), head = 8;
    const arrow = (side) => `M${x + side * off} ${y}h${side * long}m${-side * head} ${-head}l${side * head} ${head}l${-side * head} ${head}`;
    set(this.arrows.rock, { d: arrow(-1) + arrow(1) });
    const turn = (side) => {
      const [a, b] = [x + side * off, x + side * (off + 0.55 * long)];
      return `M${a} ${y - long}Q${b} ${y} ${a} ${y + long}m${side * 1.2 * head} ${-0.5 * head}l${-side * 1.2 * head} ${0.5 * head}l${-side * 0.3 * head} ${-1.3 * head}`;
    };
    set(this.arrows.stops, { d: turn(-1) + turn(1) });
    const { about, turn: goes, parts } = this.handle, { far, way } = reachOf(parts, about), middle = this.sheet.px(about);
    const [open, shut] = [0.2, 0.65].map((part) => way + goes.lever * part);
    set(this.arrows.knocks, { d: bow(middle, 0.4 * far * scale, open, shut, head) });
    set(this.arrows.shut, { d: bow(middle, 0.4 * far * scale, shut, open, head) });
  }

  // Towards what is to be done next.
  point(step) {
    for (const [name, node] of Object.entries(this.arrows)) node.style.display = name === step ? "" : "none";
  }

  show(place, hand) {
    this.sheet.move({ ...place.vars, sway: place.vars.sway * this.lean }, place.stage);
    this.close.move({ ...place.vars, open: Number(place.vars.gap * this.data.factor > ARROWS) }, place.stage);
    this.turnBall(hand.spin);
    this.placeFlashes(place.vars);
  }

  // Three marks on the ball come up over its edge, pass and sink as it rolls; spokes pass the cut.
  turnBall(spin) {
    const { x, y, r } = this.ball, [u, v] = this.axis, tilt = (Math.atan2(v, u) * 180) / Math.PI;
    this.spots.style.display = spin ? "" : "none";
    this.marks ??= [0, 1, 2].map(() => draw(this.spots, "ellipse", { class: "spot" }));
    this.marks.forEach((mark, i) => {
      const turn = spin + (i * 2 * Math.PI) / 3, front = Math.cos(turn), out = 0.86 * r * Math.sin(turn);
      mark.style.display = front > 0.05 ? "" : "none";
      const [cx, cy] = [x + out * u, y + out * v];
      set(mark, { cx, cy, rx: Math.max(0.14 * r * front, 0.001), ry: 0.14 * r, transform: `rotate(${tilt} ${cx} ${cy})` });
    });
    const seen = spin ? 0.35 + 0.65 * Math.abs(Math.cos(1.5 * spin)) : 1;
    for (const spokes of this.sheet.root.querySelectorAll(".spokes")) spokes.style.opacity = seen;
  }

  placeFlashes(vars) {
    const [tx, ty] = this.touch, near = this.close.px([tx + this.close.shiftOf("cone", vars), ty]);
    const far = this.sheet.px([this.far.x - (tx - this.ball.x), this.far.y + (ty - this.ball.y)]);
    const into = Math.atan2(this.axis[1], this.axis[0]);
    set(this.flashes[0], { d: flashOf(near, into, 9, 24) });
    set(this.flashes[1], { d: flashOf(far, Math.PI - into, 3, 11) });
  }

  // At the ball under the lens, or at the other end of the hub.
  flash(near) {
    const node = this.flashes[near ? 0 : 1], frames = [{ opacity: 1 }, { opacity: 1, offset: 0.5 }, { opacity: 0 }];
    node.animate(frames, { duration: FLASH_MS });
  }
}

// An arrow round a middle, from one clockwise angle to another.
function bow([x, y], r, from, to, head) {
  const at = (angle, far) => `${x + far * Math.sin(angle * RADIAN)} ${y - far * Math.cos(angle * RADIAN)}`;
  const back = to - (Math.sign(to - from) * head) / r / RADIAN;
  const line = Array.from({ length: 13 }, (_, i) => at(from + ((to - from) * i) / 12, r)).join("L");
  return `M${line}M${at(back, r - head)}L${at(to, r)}L${at(back, r + head)}`;
}

// Strokes round a contact, on the side of the cone.
function flashOf([x, y], into, from, to) {
  return Array.from({ length: RAYS }, (_, i) => {
    const turn = into + ((i + 0.5) / RAYS - 0.5) * 1.1 * Math.PI, [c, s] = [Math.cos(turn), Math.sin(turn)];
    return `M${x + from * c} ${y + from * s}L${x + to * c} ${y + to * s}`;
  }).join("");
}
