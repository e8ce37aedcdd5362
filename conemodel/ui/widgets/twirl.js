// Twirl the axle in the fingers. What tells is how the drag varies: the axle lags behind and grabs.

class Twirl {
  constructor(bench) {
    this.bench = bench;
    bench.onDrag({ down: (at) => this.grab(at), move: (at) => this.pull(at), up: () => this.letGo() });
    bench.onKeys((event) => this.key(event), (event) => this.keyUp(event));
    bench.onButton("round", () => this.play("round"));
    bench.onButton("flick", () => this.play("flick"));
  }

  take(data, fresh) {
    this.axle = makeTwirl(data);
    this.click = this.rasp = 0;
    if (!fresh && this.s) return;
    this.s = restTwirl(data.angle);
    this.target = this.way = this.gesture = this.script = this.drive = null;
    this.low = this.high = this.s.at;
  }

  about(at) {
    return bearing(at, this.bench.hub.middle);
  }

  begin() {
    this.gesture ??= { from: this.s.at, letGo: false, quiet: 0 };
    this.target ??= this.s.at;
    this.bench.wake();
  }

  grab(at) {
    this.script = this.drive = null;
    this.target = this.s.at;
    this.s.hand.speed = 0;
    this.way = this.about(at);
    this.begin();
  }

  pull(at) {
    const way = this.about(at);
    this.target += wrap(way - this.way);
    this.way = way;
  }

  letGo() {
    if (this.gesture && Math.abs(this.s.speed) > 2) this.gesture.letGo = true;
    this.target = this.way = this.script = this.drive = null;
  }

  key(event) {
    if (event.key === " ") {
      if (!event.repeat) this.play("flick");
      return true;
    }
    const side = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
    if (!side) return false;
    this.script = null;
    this.drive = { key: event.key, speed: 3 * side };
    this.begin();
    return true;
  }

  keyUp(event) {
    if (!this.drive || (event.key !== this.drive.key && event.key !== "blur")) return false;
    this.drive = this.target = null;
    return true;
  }

  play(what) {
    this.drive = null;
    const { speed, turned } = what === "round" ? { speed: 2.4, turned: 1.03 * TURN } : { speed: 14, turned: 0.75 * TURN };
    this.script = { speed, end: this.s.at + turned };
    this.begin();
  }

  steer() {
    if (this.target === null) return;
    const speed = this.drive?.speed ?? this.script?.speed ?? 0;
    this.target += speed * STEP;
    if (this.script && this.s.at >= this.script.end) return this.letGo();
    // Fingers slip on the axle rather than wind themselves up.
    const most = 1.05 * this.axle.most + 0.05;
    this.target = Math.max(this.s.at - most, Math.min(this.s.at + most, this.target));
  }

  step() {
    this.steer();
    const { s } = this;
    stepTwirl(this.axle, s, this.target);
    this.click = Math.max(this.click, s.click);
    this.rasp = Math.max(this.rasp, s.rasp);
    this.low = Math.min(this.low, s.at);
    this.high = Math.max(this.high, s.at);
    if (!this.gesture) return;
    this.gesture.quiet = this.target === null && this.still() ? this.gesture.quiet + STEP : 0;
    if (this.gesture.quiet > 0.15) this.finish();
  }

  listen() {
    const { sound } = this.bench, { click, rasp } = this;
    this.click = this.rasp = 0;
    if (click) sound.play(clickNotes(click));
    if (rasp) sound.rasp(rasp);
    if (click || rasp) this.bench.buzz(Math.round(4 + 16 * click));
    const level = Math.min(1, Math.max(0, this.s.rough / this.axle.loud_at - 0.08));
    sound.rustle(this.busy() ? level * (1 - 0.6 * this.axle.muffle) : 0, 850 - 450 * this.axle.muffle);
    if (level > 0.2 && !click && !rasp) this.bench.buzz(8);
  }

  finish() {
    const { from, letGo } = this.gesture, { felt } = this.bench.data;
    this.gesture = null;
    this.bench.sound.rustle(0, 600);
    const full = this.high - this.low >= 0.999 * TURN;
    const told = full ? [felt.turning] : ["Turn it once right round."];
    if (letGo) told.push(felt.let_go);
    this.bench.say(told.join(" "));
    this.bench.report({ angle: this.s.at, turned: this.s.at - from, full_turn: full, let_go: letGo });
  }

  still() {
    return Math.abs(this.s.speed) < 0.02 && Math.abs(this.s.hand.speed) < 0.02;
  }

  busy() {
    return Boolean(this.gesture);
  }

  draw(pen, look) {
    const { width, height, hub } = this.bench, { s } = this;
    const minutes = ((Math.round((s.at / TURN) * 60) % 60) + 60) % 60;
    this.bench.slider(minutes, this.still() ? `at rest, mark at ${minutes} minutes` : "turning");
    hub.place(width, height, hub.drawing.sheet.view, [8, 8, width - 16, height - 34]);
    hub.move({ twirled: (s.at * 360) / TURN });
    if (!this.bench.live) return;
    const nut = hub.boxOf(null, "locknut").r * hub.scale, axle = hub.boxOf("axle", "axle").r * hub.scale;
    pen.save();
    pen.translate(...hub.px([0, 0]));
    penStroke(pen, look, s.at, 0.55 * axle, nut);
    if (this.target !== null) drawLag(pen, look, [axle, 1.8 * nut], s.at, s.hand.at);
    pen.rotate(this.target === null ? s.at : s.hand.at);
    const gap = (this.target === null ? 1.7 : 1) * nut;
    finger(pen, look, gap, 0, 0, 0.8 * nut, 2.6 * nut);
    finger(pen, look, -gap, 0, Math.PI, 0.8 * nut, 2.6 * nut);
    pen.restore();
    if (this.bench.alone) words(pen, look, "hub held still, axle in the fingers", width / 2, height - 14, { size: 13, colour: look.muted });
  }
}
