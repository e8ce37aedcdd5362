// A replay: my path over the hidden truth beside a careful hand's, in slow motion, act by act.

const ACT_MS = 1500, REST_MS = 1100; // an act in slow motion, and a look at what it did
const TWO = 620; // px: room for both beside each other

export default (component) => standAt(component, (root) => new Replay(root));

class Replay {
  constructor(root) {
    const find = (what) => root.querySelector(what);
    this.frame = find(".replay");
    this.parts = Object.fromEntries(["back", "play", "on", "moment", "act", "paths", "note", "said", "in-words"].map((name) => [name, find(`.${name}`)]));
    const { back, play, on, moment, act } = this.parts;
    back.addEventListener("click", () => this.goTo(Math.ceil(this.at) - 1));
    on.addEventListener("click", () => this.goTo(Math.floor(this.at) + 1));
    moment.addEventListener("click", () => this.goTo(this.data.cue.at));
    act.addEventListener("input", () => this.goTo(Number(act.value)));
    play.addEventListener("click", () => this.toggle());
    this.calm = matchMedia("(prefers-reduced-motion: reduce)");
    this.sizes = new ResizeObserver(() => this.layout());
    this.sizes.observe(this.frame);
  }

  // The same replay again, as after a change of theme, goes on where it was.
  take(data) {
    const told = JSON.stringify(data.tracks);
    this.data = data;
    useColours(this.frame, data.colours);
    if (told !== this.told) this.build();
    this.told = told;
    this.layout();
  }

  build() {
    const { data, parts } = this, { cue } = data;
    this.at = 0;
    this.pause();
    parts.paths.replaceChildren();
    parts["in-words"].replaceChildren();
    this.last = Math.max(...data.tracks.map(({ acts }) => acts.length)) - 1;
    const kinds = ["mine", "good"];
    this.tracks = data.tracks.map((track, i) => {
      return new Track(parts.paths, data, track, { kind: kinds[i], cue: i === 0 ? cue : null });
    });
    data.tracks.forEach(({ name }, i) => this.tracks[i].list(parts["in-words"], name));
    parts.act.max = this.last;
    parts.moment.hidden = !cue;
    put(parts.note, data.note);
  }

  layout() {
    const width = this.frame.clientWidth;
    if (!width || !this.tracks) return;
    const two = width >= TWO;
    this.frame.classList.toggle("wide", two);
    this.frame.classList.toggle("phone", !two);
    for (const track of this.tracks) track.place(two ? Math.floor((width - 24) / 2) : width, !two);
    this.show();
  }

  goTo(act) {
    this.pause();
    this.at = Math.min(Math.max(act, 0), this.last);
    this.show();
    put(this.parts.said, this.words());
  }

  toggle() {
    if (this.playing) this.pause();
    else this.start();
    this.show();
  }

  start() {
    this.from = this.at >= this.last ? 0 : this.at;
    this.spent = 0;
    this.before = performance.now();
    this.playing = true;
    this.frames = requestAnimationFrame((now) => this.tick(now));
  }

  pause() {
    cancelAnimationFrame(this.frames);
    this.playing = false;
    this.at = Math.round(this.at);
  }

  // An act, then a look at it; without motion the hub stands at once where the act leaves it. What would have told is
  // waited at.
  tick(now) {
    this.spent += Math.min(now - this.before, 100);
    this.before = now;
    const part = Math.min(this.spent / ACT_MS, 1), next = this.from + 1;
    this.at = part < 1 && this.calm.matches ? this.from : this.from + part;
    if (this.spent >= ACT_MS + REST_MS) [this.from, this.spent] = [next, 0];
    if (part === 1 && (next === this.last || next === this.data.cue?.at)) this.pause();
    else this.frames = requestAnimationFrame((then) => this.tick(then));
    this.show();
  }

  show() {
    const numbers = this.tracks.map((track) => track.show(this.at)), act = Math.round(this.at);
    const { parts } = this;
    parts.act.value = act;
    parts.act.setAttribute("aria-valuetext", this.words());
    parts.back.setAttribute("aria-disabled", act <= 0);
    parts.on.setAttribute("aria-disabled", act >= this.last);
    put(parts.play, this.playing ? "Pause" : "Play");
    this.frame.dataset.act = numbers.join();
    this.frame.dataset.busy = this.playing ? "yes" : "no";
  }

  words() {
    const act = Math.round(this.at);
    const said = this.data.tracks.map(({ name, acts }) => `${name}: ${acts[Math.min(act, acts.length - 1)].done}`);
    const { cue } = this.data;
    return [...said, ...(cue && cue.at === act ? [cue.gesture] : [])].join(". ");
  }

  close() {
    cancelAnimationFrame(this.frames);
    this.sizes.disconnect();
  }
}
