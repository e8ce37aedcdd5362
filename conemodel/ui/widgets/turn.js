// Turn the cone: seen from outside, the spanner the hand of a clock. Angles count outward; clockwise is in.

const MINUTE = TURN / 60;
const DEGREE = TURN / 360;
const SPANNER = ["cone-spanner", "hole"];
const JAW = 24, END = 73, RING = 100; // where the spanner's handle begins and ends, and the ring, as the dial draws them
const BENDS = 0.4; // share of the hand's lead that the spanner's end goes with it

class Turn {
  constructor(bench) {
    this.bench = bench;
    this.grip = 0;
    this.lead = 0;
    bench.onDrag({ down: (at) => this.grab(at), move: (at) => this.pull(at), up: () => this.finish() });
    bench.onKeys((event) => this.key(event));
    bench.onButton("in", () => this.nudge(-MINUTE));
    bench.onButton("out", () => this.nudge(MINUTE));
  }

  take(data, fresh) {
    this.bench.find(".how").textContent = "Drag the spanner round. Let go and take hold again to regrip on the flats.";
    if (!fresh && this.angle !== undefined) return;
    this.angle = data.angle;
    this.begun = null;
    this.lead = 0;
    clearTimeout(this.timer);
    this.aria();
  }

  // Where a place on the canvas lies about the axle.
  about(at) {
    const { width, hub: { middle } } = this.bench;
    return { near: Math.hypot(at.x - middle.x, at.y - middle.y) < 0.05 * width, way: bearing(at, middle) };
  }

  begin() {
    clearTimeout(this.timer);
    this.begun ??= { angle: this.angle };
  }

  grab(at) {
    this.begin();
    this.way = this.about(at).way;
    // Regrip: of the two ways on to the flats, the one nearer the hand.
    const handle = this.grip - TURN / 4 - this.angle + this.bench.data.origin;
    if (Math.abs(wrap(this.way - handle)) > TURN / 4) this.grip = (this.grip + TURN / 2) % TURN;
    this.wanted = this.angle;
    this.bench.draw();
  }

  pull(at) {
    const { near, way } = this.about(at);
    const moved = wrap(way - this.way);
    this.way = way;
    if (near) return;
    this.wanted -= moved;
    const { resist } = this.bench.data;
    this.angle = followHand(this.wanted, this.angle, resist);
    // A hand that pulls against the stop slips, so that turning round answers at once.
    this.wanted = Math.max(this.angle - fingerLag(resist.limit, resist) - DEGREE, this.wanted);
    this.lead = Math.min(this.wanted - this.angle, 0);
    strain(this, Math.abs(moved), resist);
    this.show();
  }

  key(event) {
    const side = { ArrowRight: -1, ArrowUp: -1, ArrowLeft: 1, ArrowDown: 1 }[event.key];
    if (!side) return false;
    this.nudge(side * (event.shiftKey ? DEGREE : MINUTE));
    return true;
  }

  nudge(step) {
    this.begin();
    const { resist } = this.bench.data;
    this.wanted = this.angle + step;
    this.angle = turnTo(this.wanted, this.angle, resist);
    this.lead = step < 0 ? -fingerLag(Math.min(effortAt(resist, this.angle), resist.limit), resist) : 0;
    strain(this, Math.abs(step), resist);
    this.show();
    this.timer = setTimeout(() => this.finish(), 350);
  }

  show() {
    this.aria();
    if (!this.frame) {
      this.frame = requestAnimationFrame(() => {
        this.frame = 0;
        this.bench.draw();
      });
    }
  }

  finish() {
    clearTimeout(this.timer);
    if (!this.begun) return;
    const { resist } = this.bench.data, turned = this.angle - this.begun.angle;
    const stopped = this.wanted < this.angle - 0.5 * DEGREE && effortAt(resist, this.angle) > 0.95 * resist.limit;
    this.begun = null;
    this.lead = 0;
    this.show();
    this.bench.say(this.told());
    this.bench.report({ angle: this.angle, turned, stopped });
  }

  told() {
    const { zones, reference } = this.bench.data;
    const here = zones.filter((zone) => zone.from <= this.angle + 1e-9).pop() ?? zones[0];
    return [`${this.words()}${this.away() ? ` from ${reference}` : ""}.`, here?.text].filter(Boolean).join(" ");
  }

  away() {
    return Math.abs(this.angle - this.bench.data.origin) >= 0.08 * MINUTE;
  }

  words() {
    if (!this.away()) return `At ${this.bench.data.reference}`;
    const words = minutesInWords(this.angle - this.bench.data.origin);
    return words[0].toUpperCase() + words.slice(1);
  }

  aria() {
    this.bench.slider(Math.round((this.bench.data.origin - this.angle) / MINUTE), this.words());
  }

  close() {
    clearTimeout(this.timer);
    cancelAnimationFrame(this.frame);
  }

  draw(pen, look) {
    const { width, height, data, hub } = this.bench;
    const cone = data.origin - this.angle;
    hub.place(width, height, hub.drawing.sheet.view, [8, 4, width - 16, height - 8]);
    hub.move({ angle: -cone / DEGREE });
    bendSpanner(hub, "cone", SPANNER, { lead: this.lead, turned: this.grip });
    pen.save();
    pen.translate(...hub.px([0, 0]));
    if (this.lead) drawPull(pen, look, hub, this.grip + cone, this.lead);
    if (data.pen) {
      const axle = hub.boxOf("axle", "axle").r * hub.scale, seat = hub.boxOf("cone", "cone-seat").r * hub.scale;
      penStroke(pen, look, 0, 0.55 * axle, 0.95 * axle);
      penStroke(pen, look, cone, seat, 1.3 * seat);
    }
    pen.restore();
  }
}

// What a hand that strains hears and feels: pulses that come harder and closer the more the spanner lags.
function strain(part, moved, resist) {
  if (!part.lead || !resist.angle.length) return;
  const strained = strainOf(fingerTorque(-part.lead, resist), resist);
  part.pulled = (part.pulled ?? 0) + moved;
  if (part.pulled < creakEvery(strained)) return;
  part.pulled = 0;
  part.bench.sound.play(creakNotes(strained));
  part.bench.buzz(Math.round(4 + 26 * strained));
}

// Its jaw stays on the flats, its end goes part of the way with the hand.
function bendSpanner(hub, group, names, { lead, turned = 0, drawn = 0 }) {
  for (const { name, d } of hub.sheet.groups.get(group).parts.filter((part) => names.includes(part.name))) {
    set(hub.sheet.find(name), { d: bent(d, BENDS * -lead, drawn), transform: `rotate(${(turned / DEGREE).toFixed(1)})` });
  }
}

// An outline drawn at an angle from upright, bent clockwise by another at its far end.
function bent(d, angle, drawn) {
  if (!angle) return d;
  const [s, c] = [Math.sin(drawn), Math.cos(drawn)];
  const points = cornersOf(d).map(([x, y]) => {
    const [across, up] = [x * c + y * s, x * s - y * c], along = Math.max(up - JAW, 0) / (END - JAW);
    const moved = across + Math.tan(angle) * along * along * END;
    return `${(moved * c + up * s).toFixed(2)} ${(moved * s - up * c).toFixed(2)}`;
  });
  return `M${points.join("L")}Z`;
}

// The hand ahead of the spanner's end, by what its fingers give; without a lead it is only laid on.
function drawPull(pen, look, hub, spanner, lead) {
  const r = END * hub.scale;
  drawLag(pen, look, [r, RING * hub.scale], spanner, spanner - lead);
  pen.save();
  pen.rotate(spanner - lead);
  finger(pen, look, 0, -0.9 * r, -TURN / 4, 0.16 * r, 0.5 * r);
  pen.restore();
}
