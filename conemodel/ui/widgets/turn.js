// Turn the cone: seen from outside, the spanner the hand of a clock. Angles count outward; clockwise is in.

const MINUTE = TURN / 60;
const DEGREE = TURN / 360;

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
    this.bench.find(".how").textContent = data.tool === "spanner"
      ? "Drag the spanner round. Let go and take hold again to regrip on the flats."
      : "Drag round the cone to turn it in your fingers.";
    if (!fresh && this.angle !== undefined) return;
    this.angle = data.angle;
    this.begun = null;
    this.lead = 0;
    clearTimeout(this.timer);
    this.aria();
  }

  // Where a place on the canvas lies about the axle.
  about(at) {
    const { width, height } = this.bench, dx = at.x - width / 2, dy = at.y - height / 2;
    return { near: Math.hypot(dx, dy) < 0.05 * width, way: Math.atan2(dy, dx) };
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
    this.go();
    // A hand that pushes against the stop slips back with it, so that turning round answers at once.
    const most = 12 * DEGREE;
    this.wanted = Math.max(this.angle - most, this.wanted);
    this.lead = this.wanted - this.angle;
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
    this.wanted = this.angle + step;
    this.go();
    this.show();
    this.timer = setTimeout(() => this.finish(), 350);
  }

  go() {
    this.angle = turnTo(this.wanted, this.angle, this.bench.data.resist);
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
    const turned = this.angle - this.begun.angle, stopped = this.wanted < this.angle - 0.5 * DEGREE;
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
    const cone = data.origin - this.angle, nut = -(data.locknut ?? 0);
    hub.place(width, height, hub.drawing.sheet.view, [8, 4, width - 16, height - 8]);
    hub.move({ angle: -cone / DEGREE, locknut: nut / DEGREE });
    for (const part of ["cone-spanner", "hole"]) {
      const node = hub.sheet.find(part);
      node.setAttribute("transform", `rotate(${((this.grip - this.lead) / DEGREE).toFixed(3)})`);
      node.style.display = data.tool === "spanner" ? "" : "none";
    }
    pen.save();
    pen.translate(...hub.px([0, 0]));
    const seat = hub.boxOf("cone", "cone-seat").r * hub.scale;
    if (data.tool !== "spanner") drawFingers(pen, look, seat, this.grip + cone - this.lead);
    if (data.pen) {
      const axle = hub.boxOf("axle", "axle").r * hub.scale;
      penStroke(pen, look, 0, 0.55 * axle, 0.95 * axle);
      if (data.locknut !== null) penStroke(pen, look, nut, 1.1 * axle, 0.9 * seat);
      penStroke(pen, look, cone, seat, 1.3 * seat);
    }
    pen.restore();
    if (data.show_degrees) this.drawDegrees(pen, look);
  }

  drawDegrees(pen, look) {
    const { width, height, data } = this.bench, degrees = Math.round((this.angle - data.origin) / DEGREE);
    const text = degrees ? `${Math.abs(degrees)}° ${degrees > 0 ? "out" : "in"}` : "0°";
    words(pen, look, text, width - 10, height - 16, { align: "right", size: 18, weight: "600" });
  }
}

function drawFingers(pen, look, seat, clockwise) {
  pen.save();
  pen.rotate(clockwise);
  finger(pen, look, 0, -seat, -TURN / 4, 0.6 * seat, 2.2 * seat);
  finger(pen, look, 0, seat, TURN / 4, 0.6 * seat, 2.2 * seat);
  pen.restore();
}

export default (component) => seat(component, (bench) => new Turn(bench));
