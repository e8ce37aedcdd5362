// Several hands on one picture of a hub. Each has a bench of its own that shares canvas, drawing, sound and words with
// the others; the one that was used last is live, and drawn.

class SharedHub {
  constructor(bench, { hands, frame, owner }) {
    Object.assign(this, { bench, frame, owner, vars: {} });
    this.hands = hands.map((hand) => this.lend(hand));
    this.live = this.hands.at(-1);
    bench.handle = this.live.handle;
    bench.onDrag({ down: (at) => this.grab(at), move: (at) => this.held?.drag.move(at), up: (at) => this.letGo(at), takes: (at) => this.takes(at), taps: (at) => this.tap(at) });
  }

  lend({ name, row, make }) {
    const { bench, owner } = this, hand = Object.create(bench), shared = this;
    Object.assign(hand, { name, root: row, handle: row.querySelector("[role=slider]"), frame: 0, spare: 0, data: null, alone: false });
    Object.defineProperty(hand, "live", { get: () => shared.live === hand });
    hand.hub = Object.assign(Object.create(bench.hub), { place() {}, move: (vars) => Object.assign(shared.vars, vars) });
    hand.draw = () => bench.draw();
    hand.say = (text) => owner.say(text);
    hand.report = (told) => owner.report(name, hand.data.set_id, told);
    hand.onDrag = (drag) => Object.assign(hand, { drag });
    this.listen(hand);
    hand.part = make(hand);
    return hand;
  }

  // Whatever is done in its row makes a hand the live one; where it cannot be used now, it says why.
  listen(hand) {
    const stop = (event) => {
      if (event.key === "Tab") return;
      this.liven(hand);
      if (!hand.barred) return;
      event.stopImmediatePropagation();
      event.preventDefault();
      this.owner.say(hand.barred);
    };
    for (const what of ["click", "keydown"]) hand.root.addEventListener(what, stop, { capture: true });
    hand.handle.addEventListener("focus", () => this.liven(hand));
  }

  liven(hand) {
    this.owner.show(hand);
    if (this.live === hand) return;
    this.live = hand;
    this.bench.handle = hand.handle;
    this.bench.draw();
  }

  grab(at) {
    const hand = this.handAt(at);
    if (!hand?.data) return;
    this.liven(hand);
    if (hand.barred) return this.owner.say(hand.barred);
    this.held = hand;
    hand.drag.down(at);
  }

  // Beside the ring there is nothing to be turned, nor anywhere that a hand is barred.
  takes(at) {
    const hand = this.handAt(at), { x, y } = this.bench.hub.middle;
    if (!hand?.data || hand.barred) return false;
    return !ROUND.includes(hand.name) || Math.hypot(at.x - x, at.y - y) < BESIDE_RING * RING * this.bench.hub.scale;
  }

  tap(at) {
    const hand = this.handAt(at);
    if (hand?.barred) this.grab(at);
  }

  letGo(at) {
    this.held?.drag.up(at);
    this.held = null;
  }

  // The hand whose place is nearest among those that reach so far; else the last, which takes what is left.
  handAt(at) {
    const { left, top } = this.bench.canvas.getBoundingClientRect(), there = { ...at, left: at.x + left, top: at.y + top };
    return this.hands.find((hand) => hand.data && reaches(hand, there)) ?? this.hands.findLast((hand) => hand.data);
  }

  take({ hands }) {
    this.vars = {};
    for (const hand of this.hands) {
      const data = hands[hand.name] ?? null, fresh = hand.data?.set_id !== data?.set_id;
      hand.barred = data?.barred;
      hand.root.hidden = !data;
      hand.root.classList.toggle("barred", Boolean(hand.barred));
      hand.handle.setAttribute("aria-disabled", String(Boolean(hand.barred)));
      hand.data = data && !hand.barred ? data : data && { ...hand.data, ...data };
      hand.look = this.bench.look;
      if (!data || hand.barred) continue;
      hand.part.take(data, fresh);
      hand.ready = true;
    }
    if (!this.live.data) this.live = this.hands.findLast(({ data }) => data) ?? this.live;
  }

  draw(pen, look) {
    const { bench } = this, { width, height, hub } = bench;
    hub.place(width, height, ...this.frame(hub, width, height));
    const drawn = this.hands.filter(({ data, barred, ready }) => ready && data && !barred);
    for (const hand of drawn) hand.part.draw(pen, look);
    hub.move(this.vars);
    // Fingers that twirl the axle have put the spanners down.
    for (const part of SPANNERS) {
      const node = hub.sheet.find(part);
      if (node) node.style.display = this.live.name === "twirl" ? "none" : "";
    }
    if (this.live.name !== "twirl" && hub.sheet.find("cone-spanner")) nameSpanners(pen, look, width, height);
  }

  close() {
    for (const hand of this.hands) {
      cancelAnimationFrame(hand.frame);
      hand.part.close?.();
    }
  }
}

// Which spanner is which, in the lower corners: one may lie behind the other.
function nameSpanners(pen, look, width, height) {
  for (const [text, colour, x, align] of [["cone spanner", look.petrol_tint, 8, "left"], ["locknut spanner", look.taken_tint, width - 8, "right"]]) {
    const box = align === "left" ? x : x - SWATCH, beside = align === "left" ? x + SWATCH + 5 : x - SWATCH - 5;
    pen.beginPath();
    pen.rect(box, height - 20, SWATCH, SWATCH);
    Object.assign(pen, { fillStyle: colour, strokeStyle: look.ink, lineWidth: 1 });
    pen.fill();
    pen.stroke();
    words(pen, look, text, beside, height - 13, { size: 13, align });
  }
}

const SWATCH = 14; // px
const SPANNERS = ["nut-spanner", "cone-spanner", "hole"];
const ROUND = ["twirl", "locknut", "turn"]; // hands that go round the axle
const BESIDE_RING = 1.2; // times the ring's radius: how far out a hand still turns
const WIDE = 10; // px about a handle that still take hold of it

// Whether a hand takes hold at a place: of the clamp's handle, the axle's end, the axle seen end on, the locknut's spanner.
function reaches({ name, part, hub, barred }, at) {
  if (name === "lever") {
    return part.boxes().some((box) => at.left > box.left - WIDE && at.left < box.right + WIDE && at.top > box.top - WIDE && at.top < box.bottom + WIDE);
  }
  if (name === "axle end") {
    const { hold: [out, thick] } = hub.drawing, [x, y] = hub.px([out, 0]);
    return Math.abs(at.x - x) < 14 && Math.abs(at.y - y) < thick * hub.scale + WIDE;
  }
  const { x, y } = hub.middle, far = Math.hypot(at.x - x, at.y - y);
  if (name === "twirl") return !barred && far < hub.boxOf(null, "locknut").r * hub.scale;
  if (name === "locknut") return far < 1.15 * RING * hub.scale && Math.abs(wrap(bearing(at, { x, y }) + TURN / 4 - part.spanner)) < NEAR_SPANNER;
  return false;
}

const NEAR_SPANNER = 0.3; // rad beside the locknut's spanner that still take hold of it
