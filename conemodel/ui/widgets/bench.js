// What the widgets share on the page: canvas, theme, clock, sound, buzz, keys and the way back to Python.

const CUT_SHORT = "The other hub was put down before it was felt: feel it again, and wait for its answer.";

class Bench {
  // Where several pictures stand on one bench, they share what is said and heard.
  constructor(root, Part, shared) {
    this.root = root;
    this.host = root.host ?? root;
    this.canvas = this.handle = this.find("canvas");
    this.pen = this.canvas.getContext("2d");
    this.hub = new BenchHub(this.find("svg"));
    this.status = shared?.status ?? this.find("[role=status]");
    this.sound = shared?.sound ?? new Sound(this.find(".sound"));
    if (!shared && !this.sound.chosen) new SoundCheck(this);
    this.calm = matchMedia("(prefers-reduced-motion: reduce)");
    this.calmChange = () => this.draw();
    this.calm.addEventListener("change", this.calmChange);
    this.sizes = new ResizeObserver(() => this.resize());
    this.sizes.observe(this.canvas);
    this.sequence = 0;
    this.frame = 0;
    this.spare = 0;
    this.touched = false;
    this.live = true; // this hand is the one on the hub
    this.alone = true;
    this.part = new Part(this);
  }

  find(what) {
    return this.root.querySelector(what);
  }

  // A changed set is a new hub, or the same one in another state: what was felt before no longer counts.
  take(data) {
    const fresh = this.data?.set_id !== data.set_id, cut = fresh && this.data && this.part.busy?.();
    this.data = data;
    this.sequence = Math.max(this.sequence, data.sequence ?? 0);
    this.canvas.setAttribute("aria-label", data.label);
    this.look = { ...useColours(this.find(".bench") ?? this.root, data.drawing.colours), font: getComputedStyle(this.host).getPropertyValue("--st-font") };
    this.hub.take(data.drawing);
    this.part.take(data, fresh);
    if (fresh) this.say(cut ? CUT_SHORT : "Nothing felt yet.");
    this.draw();
  }

  // One state object for one gesture.
  report(hand) {
    this.sequence += 1;
    this.component.setStateValue("hand", { sequence: this.sequence, set_id: this.data.set_id, ...hand });
  }

  say(text) {
    if (this.status.textContent !== text) this.status.textContent = text;
  }

  slider(now, words) {
    this.handle.setAttribute("aria-valuenow", String(now));
    this.handle.setAttribute("aria-valuetext", words);
  }

  buzz(pattern) {
    if (this.touched && !this.calm.matches && navigator.vibrate) navigator.vibrate(pattern);
  }

  resize() {
    const box = this.canvas.getBoundingClientRect(), fine = devicePixelRatio || 1;
    this.width = box.width;
    this.height = box.height;
    const wide = Math.round(box.width * fine), high = Math.round(box.height * fine);
    if (this.canvas.width !== wide || this.canvas.height !== high) {
      this.canvas.width = wide;
      this.canvas.height = high;
    }
    this.fine = fine;
    this.draw();
  }

  draw() {
    if (!this.data || !this.width) return;
    const pen = this.pen;
    pen.setTransform(this.fine, 0, 0, this.fine, 0, 0);
    pen.clearRect(0, 0, this.width, this.height);
    pen.lineCap = pen.lineJoin = "round";
    this.part.draw(pen, this.look);
  }

  // Runs until the part says it is at rest. Steps are of fixed length; what a frame leaves over waits.
  wake() {
    if (this.frame) return;
    this.before = this.moved = performance.now();
    this.frame = requestAnimationFrame((now) => this.tick(now));
  }

  tick(now) {
    this.spare += (Math.min(Math.max(now - this.before, 0), 250) / 1000) * (this.part.pace?.() ?? 1);
    this.before = now;
    for (; this.spare >= STEP; this.spare -= STEP) this.part.step();
    this.part.listen?.();
    const busy = this.part.busy();
    if (!this.part.still()) [this.moved, this.shown] = [now, false];
    // Without motion: a place is shown once it is held, the way there is not.
    const held = !this.shown && now - this.moved > 150;
    if (!this.calm.matches || !busy || held) this.draw();
    this.shown ||= held;
    this.frame = busy ? requestAnimationFrame((next) => this.tick(next)) : 0;
    if (!busy) this.part.rested?.();
  }

  // Mouse, pen and finger alike. Places are in px from the canvas's own corner. A finger that comes down where nothing
  // `takes` it is the page's, to scroll by; it only `taps`.
  onDrag({ down, move, up, takes = () => true, taps = () => {} }) {
    const place = (event) => {
      const box = this.canvas.getBoundingClientRect();
      return { x: event.clientX - box.left, y: event.clientY - box.top };
    };
    let held = null;
    this.canvas.addEventListener("pointerdown", (event) => {
      if (held !== null || event.button > 0) return;
      held = event.pointerId;
      this.touched = event.pointerType === "touch";
      if (this.touched && !takes(place(event))) return taps(place(event));
      this.canvas.setPointerCapture(held);
      down(place(event));
      this.handle.focus({ preventScroll: true });
      event.preventDefault();
    });
    const keepFromPage = (event) => takes(place(event.changedTouches[0])) && event.preventDefault();
    this.canvas.addEventListener("touchstart", keepFromPage, { passive: false });
    this.canvas.addEventListener("pointermove", (event) => {
      if (event.pointerId === held) move(place(event));
    });
    const let_go = (event) => {
      if (event.pointerId !== held) return;
      held = null;
      up(place(event));
    };
    this.canvas.addEventListener("pointerup", let_go);
    this.canvas.addEventListener("pointercancel", let_go);
  }

  // `keys` names what each key does; a true answer means the key was ours and goes no further.
  onKeys(pressed, released = () => false) {
    const pass = (action) => (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey || !action(event)) return;
      event.preventDefault();
      event.stopPropagation();
    };
    this.handle.addEventListener("keydown", pass(pressed));
    this.handle.addEventListener("keyup", pass(released));
    this.handle.addEventListener("blur", () => released({ key: "blur" }));
  }

  onButton(name, action) {
    this.find(`.${name}`).addEventListener("click", action);
  }

  close() {
    cancelAnimationFrame(this.frame);
    this.part.close?.();
    this.sizes.disconnect();
    this.calm.removeEventListener("change", this.calmChange);
    this.sound.close();
  }
}
