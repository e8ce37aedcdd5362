// Spin the wheel: a push, a long coast, and the swing back by the heavy spot at the end.

const FASTEST = 30;
const SHIVER = 3; // mm that the frame shakes by a wheel that grinds

class Spin {
  constructor(bench) {
    this.bench = bench;
    this.fast = false;
    bench.onDrag({ down: (at) => this.grab(at), move: (at) => this.pull(at), up: () => this.letGo() });
    bench.onKeys((event) => this.key(event));
    bench.onButton("push", () => this.push(1));
    bench.onButton("hold", () => this.hold());
    bench.onButton("fast", () => this.hurry());
  }

  take(data, fresh) {
    if (!fresh && this.s) return;
    this.s = { at: data.angle, speed: 0 };
    this.hand = this.way = this.script = this.gesture = null;
  }

  about(at) {
    return bearing(at, this.bench.hub.middle);
  }

  begin() {
    this.gesture ??= { top: 0, swings: 0, side: 0, quiet: 0, running: false };
    this.bench.wake();
  }

  grab(at) {
    this.script = null;
    this.hand = { target: this.s.at };
    this.way = this.about(at);
    this.begin();
  }

  pull(at) {
    const way = this.about(at);
    this.hand.target += wrap(way - this.way);
    this.way = way;
  }

  letGo() {
    this.hand = this.way = this.script = null;
    const { gesture, s } = this;
    if (!gesture || gesture.running || Math.abs(s.speed) < 0.5) return;
    Object.assign(gesture, { running: true, swings: 0, side: Math.sign(s.speed), top: Math.abs(s.speed) });
    this.bench.say(this.bench.data.felt.running);
    this.bench.report({ at_rest: false, brisk: gesture.top > 6, angle: null, swung_back: false });
  }

  key(event) {
    const side = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
    if (side) this.push(side);
    else if (event.key === " ") this.hold();
    else return false;
    return true;
  }

  push(side) {
    const speed = Math.max(-FASTEST, Math.min(FASTEST, this.s.speed + 9 * side));
    this.script = { speed, left: 0.15 };
    this.begin();
  }

  hold() {
    this.script = { speed: 0, left: 0.4 };
    this.begin();
  }

  hurry() {
    this.fast = !this.fast;
    this.bench.find(".fast").setAttribute("aria-pressed", String(this.fast));
    this.bench.draw();
  }

  pace() {
    return this.fast && !this.hand && !this.script ? 10 : 1;
  }

  handSpeed() {
    if (this.script) {
      if ((this.script.left -= STEP) <= 0) this.letGo();
      return this.script?.speed ?? null;
    }
    if (!this.hand) return null;
    return Math.max(-FASTEST, Math.min(FASTEST, (this.hand.target - this.s.at) / 0.04));
  }

  step() {
    const { s, gesture } = this;
    const hand = this.handSpeed();
    stepSpin(this.bench.data, s, hand);
    if (!gesture) return;
    if (Math.abs(s.speed) > 0.02 && Math.sign(s.speed) !== gesture.side && hand === null) {
      gesture.swings += gesture.side ? 1 : 0;
      gesture.side = Math.sign(s.speed);
    }
    gesture.quiet = hand === null && s.speed === 0 ? gesture.quiet + STEP : 0;
    if (gesture.quiet > 0.2) this.finish();
  }

  finish() {
    const { running, swings, top } = this.gesture, { felt } = this.bench.data;
    this.gesture = null;
    this.bench.sound.rustle(0, 400);
    this.bench.draw();
    if (!running) return;
    const end = swings ? felt.swung : felt.stayed;
    this.bench.say(`${felt.running} ${end} The valve rests at about ${this.clock()} o'clock.`);
    this.bench.report({ at_rest: true, brisk: top > 6, angle: wrap(this.s.at), swung_back: swings > 0 });
  }

  clock() {
    return ((Math.round((this.s.at / TURN) * 12) + 5 + 1200) % 12) + 1;
  }

  listen() {
    const { rough } = this.bench.data, speed = Math.abs(this.s.speed);
    const level = this.busy() ? rough * Math.min(1, speed / 8) : 0;
    this.bench.sound.rustle(level, 250 + 18 * speed);
    if (level > 0.3 && this.hand) this.bench.buzz(8);
  }

  still() {
    return Math.abs(this.s.speed) < 0.01;
  }

  busy() {
    return Boolean(this.gesture);
  }

  draw(pen, look) {
    const { width, height, data, hub, calm } = this.bench, speed = Math.abs(this.s.speed);
    this.bench.slider((this.clock() % 12) * 5, speed ? "turning" : `at rest, valve at ${this.clock()} o'clock`);
    hub.place(width, height, hub.drawing.sheet.view, [4, 4, width - 8, height - 28]);
    const blur = calm.matches ? 0 : Math.min(1, Math.max(0, (speed - 5) / 8)), smear = calm.matches ? 0 : Math.min(0.5, speed / 45);
    const shiver = speed && !calm.matches ? SHIVER * data.rough * Math.sin(19 * this.s.at) : 0;
    hub.move({ spun: (this.s.at * 360) / TURN, shiver, valve: Number(smear <= 0.05) });
    hub.sheet.find("spokes").style.opacity = 1 - 0.92 * blur;
    this.drawValve(pen, look, smear);
    if (this.fast) words(pen, look, "time runs 10×", 10, 16, { align: "left", size: 13 });
    if (calm.matches && speed) words(pen, look, "spinning", width / 2, height - 12, { size: 15 });
  }

  // The name of the valve, or where it is smeared over while the wheel turns fast.
  drawValve(pen, look, smear) {
    const { hub } = this.bench, { top, foot } = hub.boxOf("valve", "valve");
    pen.save();
    pen.translate(...hub.px([0, 0]));
    pen.rotate(this.s.at);
    const r = ((top + foot) / 2) * hub.scale;
    if (smear > 0.05) shape(pen, null, look.petrol, (p) => p.arc(0, 0, r, TURN / 4 - smear, TURN / 4 + smear), 3);
    else words(pen, look, "valve", 0, top * hub.scale - 12, { size: 13 });
    pen.restore();
  }
}
