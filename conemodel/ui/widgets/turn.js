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

  draw(pen, ink) {
    const { width, height, data } = this.bench;
    const size = Math.min(width, height), mm = size / 92;
    pen.save();
    pen.translate(width / 2, height / 2);
    drawClock(pen, ink, size);
    drawFlange(pen, ink, mm * 0.92);
    const cone = data.origin - this.angle, nut = data.locknut;
    drawCone(pen, ink, mm, cone);
    if (nut !== null) drawLocknut(pen, ink, mm, -nut);
    drawAxleFace(pen, ink, mm, 0);
    const way = this.grip - this.angle - this.lead + data.origin;
    if (data.tool === "spanner") drawSpanner(pen, ink, mm, way);
    else drawFingers(pen, ink, mm, way);
    if (data.pen) {
      drawStroke(pen, ink, 0, 2.8 * mm, 4.8 * mm);
      if (nut !== null) drawStroke(pen, ink, -nut, 5.3 * mm, 7.7 * mm);
      drawStroke(pen, ink, cone, 9.4 * mm, 12.6 * mm);
    }
    pen.restore();
    this.drawWords(pen, ink, size);
  }

  drawWords(pen, ink, size) {
    const { width, height, data } = this.bench;
    const x = width / 2, y = height / 2, r = 0.475 * size;
    bend(pen, x, y, r, -0.19 * TURN, -0.125 * TURN, ink.accent);
    bend(pen, x, y, r, -0.31 * TURN, -0.375 * TURN, ink.accent);
    words(pen, ink, "in (clockwise)", width - 10, 17, { align: "right", weight: "600" });
    words(pen, ink, "out", 10, 17, { align: "left", weight: "600" });
    if (data.show_degrees) {
      const degrees = Math.round((this.angle - data.origin) / DEGREE);
      const text = degrees ? `${Math.abs(degrees)}° ${degrees > 0 ? "out" : "in"}` : "0°";
      words(pen, ink, text, width - 10, height - 16, { align: "right", size: 18, weight: "600" });
    }
  }
}

function drawClock(pen, ink, size) {
  const r = 0.435 * size;
  disc(pen, 0, 0, r, null, ink.line, 1.5);
  for (let minute = 0; minute < 60; minute += 1) {
    const at = minute * MINUTE - TURN / 4, long = minute % 5 ? 6 : 12;
    const [c, s] = [Math.cos(at), Math.sin(at)];
    line(pen, r * c, r * s, (r - long) * c, (r - long) * s, minute % 5 ? ink.line : ink.text, minute % 5 ? 1 : 2);
    if (minute % 15 === 0) {
      words(pen, ink, String(minute / 5 || 12), (r - 24) * c, (r - 24) * s, { size: 15, colour: ink.soft });
    }
  }
}

// A thin cone spanner: open jaw on the two flats, its tip on the minute marks.
function drawSpanner(pen, ink, mm, clockwise) {
  pen.save();
  pen.rotate(clockwise);
  const flat = 9.6 * mm, end = 39 * mm, half = 3.6 * mm;
  shape(pen, ink.steel, ink.text, (p) => {
    p.moveTo(-flat, 7 * mm);
    p.lineTo(-flat, -9.5 * mm);
    p.arc(0, 0, 13.5 * mm, TURN / 2 + 0.78, TURN - 0.78);
    p.lineTo(flat, 7 * mm);
    p.lineTo(flat + 5.5 * mm, 5 * mm);
    p.quadraticCurveTo(flat + 7 * mm, -12 * mm, half, -19 * mm);
    p.lineTo(half, 3 * mm - end);
    p.quadraticCurveTo(0, -end - mm, -half, 3 * mm - end);
    p.lineTo(-half, -19 * mm);
    p.quadraticCurveTo(-flat - 7 * mm, -12 * mm, -flat - 5.5 * mm, 5 * mm);
    p.closePath();
  });
  line(pen, 0, -19 * mm, 0, -end + 1.2 * mm, ink.line, 1);
  pen.restore();
}

function drawFingers(pen, ink, mm, clockwise) {
  pen.save();
  pen.rotate(clockwise);
  finger(pen, ink, 0, -13 * mm, -TURN / 4, 5.5 * mm, 24 * mm);
  finger(pen, ink, 0, 13 * mm, TURN / 4, 5.5 * mm, 24 * mm);
  pen.restore();
}

export default (component) => seat(component, (bench) => new Turn(bench));
