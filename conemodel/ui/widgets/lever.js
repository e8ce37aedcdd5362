// What clamps the hub: a lever, axle nuts or a handle, thrown over by a drag, a press or a key.

const THROW = 56; // px of a drag that throw it right over
const FLICKS = 3; // ways a second that a press takes it

class Lever {
  constructor(bench) {
    this.bench = bench;
    bench.onDrag({ down: (at) => this.grab(at), move: (at) => this.pull(at), up: () => this.letGo() });
    bench.onKeys((event) => this.key(event));
    bench.onButton("toggle", () => this.play());
  }

  take(data) {
    if (!this.begun) this.at = Number(data.closed);
    this.aria();
  }

  // Where it is drawn in the window, as boxes; what has no height cannot be taken hold of.
  boxes() {
    const groups = [...this.bench.hub.sheet.groups.values()].filter(({ turn, roll }) => turn?.lever || roll?.lever);
    return groups.map(({ node }) => node.getBoundingClientRect()).filter(({ width, height }) => width && height);
  }

  begin() {
    this.begun ??= { closed: Boolean(this.bench.data.closed), far: 0 };
  }

  grab(at) {
    this.script = null;
    this.begin();
    this.from = at;
  }

  pull(at) {
    this.begun.far = Math.max(this.begun.far, Math.hypot(at.x - this.from.x, at.y - this.from.y));
    this.go(Math.min(1, Math.hypot(at.x - this.from.x, at.y - this.from.y) / THROW));
  }

  go(part) {
    const { closed } = this.begun, before = this.at;
    this.at = closed ? 1 - part : part;
    if (!closed && Math.floor(12 * this.at) > Math.floor(12 * before)) this.bench.sound.play(creakNotes(this.at));
    this.bench.draw();
  }

  // A press without a drag throws it over too.
  letGo() {
    if (!this.begun) return;
    const { closed, far } = this.begun, part = closed ? 1 - this.at : this.at;
    if (far < 4) this.play();
    else if (part > 0.5) this.finish();
    else this.drop();
  }

  key(event) {
    const wanted = { ArrowRight: true, ArrowUp: true, ArrowLeft: false, ArrowDown: false, End: true, Home: false };
    const press = ["Enter", " "].includes(event.key), to = press ? !this.bench.data.closed : wanted[event.key];
    if (to !== undefined && to !== this.bench.data.closed && !event.repeat) this.play();
    return to !== undefined;
  }

  play() {
    if (this.script) return;
    this.begin();
    this.script = { part: 0 };
    this.bench.wake();
  }

  step() {
    if (!this.script) return;
    this.script.part = Math.min(1, this.script.part + FLICKS * STEP);
    if (this.script.part === 1) this.finish();
  }

  listen() {
    if (this.script) this.go(this.script.part);
  }

  finish() {
    const close = !this.begun.closed;
    this.begun = this.script = null;
    this.at = Number(close);
    this.aria();
    this.bench.draw();
    this.bench.report({ close });
  }

  drop() {
    this.begun = null;
    this.take(this.bench.data);
    this.bench.draw();
  }

  aria() {
    this.bench.slider(Math.round(100 * this.at), this.at >= 1 ? this.bench.data.shut : this.bench.data.open);
  }

  still() {
    return !this.script;
  }

  busy() {
    return Boolean(this.script);
  }

  draw() {
    this.bench.hub.move({ lever: this.at, clamp: this.at, apart: 1 - this.at });
  }
}
