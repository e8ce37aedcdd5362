// The locknut under its spanner: run up and pulled tight as far as the hand goes, or broken loose. Clockwise is in.

const LOOSENS = 0.42, EASES = 0.06; // lead of the hand at which a tight nut, and one that is only run up, comes loose [rad]
const PULLS = 1.5; // how fast keys and buttons pull [rad/s]

class Locknut {
  constructor(bench) {
    this.bench = bench;
    bench.onDrag({ down: (at) => this.grab(at), move: (at) => this.pull(at), up: () => this.finish() });
    bench.onKeys((event) => this.key(event), (event) => this.keyUp(event));
    bench.onButton("undo", () => this.play({ way: 1 }));
    bench.onButton("tighten", () => this.play({ way: -1, until: this.bench.data.efforts.firm }));
  }

  // How far a loose nut turns until it touches the cone, and where its spanner stands then, as the dial draws them.
  get swing() {
    return this.bench.hub.sheet.groups.get("nut").turn.nut * DEGREE;
  }

  get drawn() {
    return reachOf(this.bench.hub.sheet.groups.get("nut").parts).way * DEGREE;
  }

  // Where its spanner points, clockwise from upright.
  get spanner() {
    return this.drawn - this.angle;
  }

  take(data) {
    if (this.begun) return;
    this.angle = data.stands === "loose" ? 0 : -this.swing;
    this.lead = 0;
    this.script = this.drive = null;
    this.aria();
  }

  begin() {
    if (this.begun) return;
    this.begun = { from: this.angle, loose: this.bench.data.stands === "loose" };
    this.wanted = this.angle;
  }

  grab(at) {
    this.script = this.drive = null;
    this.begin();
    this.way = bearing(at, this.bench.hub.middle);
  }

  pull(at) {
    const way = bearing(at, this.bench.hub.middle), moved = wrap(way - this.way);
    this.way = way;
    this.follow(this.wanted - moved);
  }

  // The nut goes with the hand until it touches; then it stays behind by what the fingers give, and comes loose late.
  follow(wanted) {
    const { begun, swing } = this, { resist, stands } = this.bench.data, before = this.wanted;
    const most = fingerLag(resist.limit, resist), deepest = deepestAngle(resist.angle, resist.effort, resist.limit);
    this.wanted = Math.max(wanted, deepest - swing - most - DEGREE);
    const off = this.wanted - begun.from;
    if (!begun.loose && off > (stands === "tight" ? LOOSENS : EASES)) this.comeLoose();
    if (begun.loose) this.angle = Math.min(this.wanted, 0);
    if (begun.loose && this.angle > -swing) this.lead = 0;
    else if (!begun.loose && off > 0) [this.angle, this.lead] = [begun.from, off];
    else this.tighten(resist);
    strain(this, Math.abs(this.wanted - before), resist);
    this.aria();
    this.bench.draw();
  }

  tighten(resist) {
    this.angle = followHand(this.wanted + this.swing, 0, resist) - this.swing;
    this.lead = Math.min(this.wanted - this.angle, 0);
    this.begun.most = Math.max(this.begun.most ?? 0, this.torque);
  }

  comeLoose() {
    this.begun.loose = this.begun.undone = true;
    this.bench.sound.play(creakNotes(1));
    this.bench.buzz(30);
  }

  get torque() {
    return this.angle <= -this.swing && this.lead < 0 ? fingerTorque(-this.lead, this.bench.data.resist) : 0;
  }

  key(event) {
    const way = { ArrowRight: -1, ArrowUp: -1, ArrowLeft: 1, ArrowDown: 1 }[event.key], { data } = this.bench;
    if (way && !event.repeat) {
      this.script = null;
      this.drive = { key: event.key, way };
      this.begin();
      this.bench.wake();
    } else if (["Enter", " "].includes(event.key) && !event.repeat) {
      this.play(data.stands === "tight" ? { way: 1 } : { way: -1, until: data.efforts.firm });
    }
    return Boolean(way) || ["Enter", " "].includes(event.key);
  }

  keyUp(event) {
    if (!this.drive || (event.key !== this.drive.key && event.key !== "blur")) return false;
    this.finish();
    return true;
  }

  // The button's hand: a firm one, or one that undoes it.
  play(script) {
    this.drive = null;
    this.begin();
    this.script = script;
    this.bench.wake();
  }

  step() {
    const { script, drive } = this, moves = script ?? drive;
    if (!moves) return;
    this.owed = (this.owed ?? 0) + moves.way * PULLS * STEP;
    if (Math.abs(this.owed) < DEGREE / 4) return;
    const by = this.owed;
    this.owed = 0;
    this.follow(this.wanted + by);
    if (script && (script.until ? this.torque >= script.until : this.begun.undone || this.begun.loose)) this.finish();
  }

  finish() {
    const { begun } = this, { efforts, technique } = this.bench.data;
    if (!begun) return;
    this.begun = this.script = this.drive = null;
    this.lead = 0;
    if (begun.most > 0.5 * efforts.light) this.bench.report({ effort: nearestEffort(begun.most, efforts), technique });
    else if (begun.undone) this.bench.report({ effort: "undo", technique });
    else {
      this.bench.say(begun.loose ? "Pull on: it is not tight yet." : "It has not come loose: pull further.");
      this.take(this.bench.data);
    }
    this.bench.draw();
  }

  aria() {
    const { stands } = this.bench.data, share = strainOf(this.torque, this.bench.data.resist);
    const words = !this.begun ? stands : share > 0 ? effortWords(share) : this.begun.loose ? "turning freely" : "held fast";
    this.bench.slider(Math.round(100 * share), words);
  }

  still() {
    return !this.script && !this.drive;
  }

  busy() {
    return Boolean(this.script || this.drive);
  }

  draw(pen, look) {
    const { hub, live } = this.bench, { swing, lead } = this;
    hub.move({ nut: -this.angle / swing });
    bendSpanner(hub, "nut", ["nut-spanner"], { lead, drawn: this.drawn });
    if (!live || !this.begun) return;
    pen.save();
    pen.translate(...hub.px([0, 0]));
    drawPull(pen, look, hub, this.spanner, lead);
    pen.restore();
  }
}

// The word for a pull is the one whose usual torque is nearest.
function nearestEffort(torque, efforts) {
  const away = ([, usual]) => Math.abs(Math.log(torque / usual));
  return Object.entries(efforts).reduce((a, b) => (away(b) < away(a) ? b : a))[0];
}

const effortWords = (share) => (share < 0.6 ? "it begins to bite" : share < 0.85 ? "pulling" : "pulling hard");
