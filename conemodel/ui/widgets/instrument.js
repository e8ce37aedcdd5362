// The instrument on a page: builds its sheets once, draws them at the next frame, and tells Python when a hand lets go.

const WIDE = 1000, TABLET = 560; // px of the instrument's own width
const SOON = 1000; // ms that the server has to answer ahead of the page
const MOST_UNHEARD = 30; // gestures kept for a page that does not answer
const STILL = 60; // ms without a move: a frame for words sooner than that would be late for the next move

export default (component) => standAt(component, (root) => new Instrument(root));

// What is exactly so, from the server; nothing where it does not answer soon, for then the page will.
async function answerAhead(address) {
  try {
    const answer = await fetch(address, { signal: AbortSignal.timeout(SOON) });
    return answer.ok ? await answer.json() : null;
  } catch {
    return null;
  }
}

class Instrument {
  constructor(root) {
    this.host = root.host ?? root;
    this.frame = root.querySelector(".instrument");
    this.boxes = Object.fromEntries(["head", "close", "acts", "dial", "whole", "said"].map((name) => [name, root.querySelector(`.${name}`)]));
    this.headline = new Headline(this.boxes.head, () => this.makeTurn());
    this.acts = new Acts(this.boxes.acts, (stage) => this.hands.goTo(stage, "pointer"));
    this.sequence = 0;
    this.unheard = []; // how hands left the hub since the gesture that the page answered last
    this.told = 0;
    // Words cost as much as the rest of the picture. While a hand moves each frame renews those of one box in turn, and
    // all are renewed once the hand keeps still.
    this.tellings = [
      (place, answer) => this.headline.show(place, answer, this.hide.has("headline"), this.dial.way < 0),
      (place, answer) => this.closeUp.tell(place, digitsOf(answer)),
      (place, answer) => this.acts.show(place, this.data.numbers, this.hide.has("numbers"), digitsOf(answer)),
      () => this.dial.tell(this.hands.at, this.hands.note),
      () => this.whole.tell(this.hands.at),
    ];
    // Scrolled past its place the headline keeps its room there but stands in fewer words.
    this.scrolled = new IntersectionObserver(([{ isIntersecting, boundingClientRect }]) => {
      this.boxes.head.toggleAttribute("data-stuck", !isIntersecting && boundingClientRect.top < 1);
    });
    this.scrolled.observe(root.querySelector(".brink"));
    this.sizes = new ResizeObserver(() => this.layout());
    this.sizes.observe(this.frame);
  }

  // New data of the same hub replaces what was interpolated; another hub is drawn afresh.
  take(data) {
    const first = !this.data, fresh = first || this.data.set_id !== data.set_id;
    const shown = JSON.stringify([data.numbers, data.hide, data.above]);
    this.data = Object.assign(this.data ?? {}, data);
    this.hide = new Set(data.hide);
    this.paint(data.colours);
    if (fresh) this.build();
    if (first || data.sequence >= this.sequence) this.stand(first);
    if (fresh || shown !== this.laidOut) this.layout();
    this.laidOut = shown;
    this.sequence = Math.max(this.sequence, data.sequence ?? 0);
    this.unheard = this.unheard.filter(({ sequence }) => sequence > (data.sequence ?? 0));
    this.frame.dataset.exact = this.data.exact.angle;
    this.show();
  }

  // Where Python has the cone: at once when first shown, in the order of the hands when it was moved there since.
  stand(first) {
    const { exact, stage } = this.data;
    if (first) this.hands.place(exact.angle, stage);
    else this.hands.moveTo(exact.angle);
  }

  paint(colours) {
    useColours(this.frame, colours);
    this.frame.style.setProperty("--above", `${this.data.above}px`);
  }

  build() {
    const { data, boxes } = this, { numbers } = data;
    for (const name of ["close", "dial", "whole"]) boxes[name].replaceChildren();
    this.hands ??= new Hands({
      numbers,
      clamp: data.clamp,
      onShow: () => this.show(),
      onRest: (told) => this.report(told),
      onSay: () => this.say(),
    });
    Object.assign(this.hands, { numbers, clamp: data.clamp });
    this.closeUp = new CloseUp(boxes.close, data);
    this.dial = new Dial(boxes.dial, data);
    this.whole = new Whole(boxes.whole, data);
    this.sliders = [holdDial(this.dial, this.hands), holdClamp(this.whole, this.hands)];
  }

  layout() {
    if (!this.data) return;
    const width = this.frame.clientWidth;
    const kind = width >= WIDE ? "wide" : width >= TABLET ? "tablet" : "phone";
    this.frame.className = `instrument ${kind}`;
    this.boxes[kind === "phone" ? "dial" : "head"].append(this.headline.go);
    const box = (name) => [this.boxes[name].clientWidth, this.boxes[name].clientHeight];
    if (!width) return;
    this.headline.reserve(this.data, kind === "phone", this.dial.way < 0);
    this.closeUp.place(...box("close"), kind, this.hide);
    this.dial.place(...box("dial"), kind, this.hide);
    this.whole.place(...box("whole"), kind, this.hide);
    this.draw();
  }

  // Once a frame at most, however often a finger moves.
  show() {
    if (this.hands.busy) this.frame.dataset.busy = "yes";
    else if (this.left) return; // it stands as drawn: nothing is in the way of asking and of the answer
    this.drawing ||= requestAnimationFrame(() => this.draw());
  }

  draw() {
    this.drawing = 0;
    const { data, hide, hands } = this, place = follow(data, hands.at), answer = this.answer();
    const advised = answer.turn !== null && !hide.has("headline");
    this.goal = advised ? answer.end : null;
    if (advised) Object.assign(place.vars, { advised: answer.aim, advising: 1 });
    this.closeUp.show(place);
    this.dial.show(place, hands.at);
    this.whole.show(place);
    this.unsaid = { place, answer };
    if (!hands.busy && !this.left) return this.tell();
    this.told = (this.told + 1) % this.tellings.length;
    this.tellings[this.told](place, answer);
    clearTimeout(this.telling);
    this.telling = setTimeout(() => this.tell(), STILL);
  }

  // What is said of the cone where it stands, where the turn advised ends, and why that is outside the green.
  answer() {
    const { data, hands } = this, { angle } = hands.at, answer = answerAt(data, angle);
    const end = hands.bounded(angle + (answer.turn ?? 0));
    return { ...answer, end, beside: whyBeside(data, end) };
  }

  tell() {
    clearTimeout(this.telling);
    const { hands, unsaid: { place, answer } } = this;
    for (const tell of this.tellings) tell(place, answer);
    this.frame.dataset.busy = hands.busy ? "yes" : "no";
    if (hands.held) return;
    const words = this.words(place, answer);
    for (const slider of this.sliders) slider(words);
  }

  words(place, answer) {
    if (this.hide.size) return placeWords(this.hands.at.angle);
    return sayState(place, this.hands.at, answer, this.data.clamp);
  }

  makeTurn() {
    if (this.goal !== null) this.hands.turnTo(this.goal, "pointer");
  }

  say() {
    const { at } = this.hands;
    this.silent = Boolean(this.left); // what is said aloud is what is answered
    if (this.silent) return;
    put(this.boxes.said, this.words(follow(this.data, at), this.answer()));
  }

  // Where the server answers ahead of the page, the page is told once that answer can be seen; of the last gesture, with
  // the angles of those before it that it may not have heard of.
  async report(told) {
    this.sequence += 1;
    this.unheard = [...this.unheard, { sequence: this.sequence, angle: told.angle }].slice(-MOST_UNHEARD);
    const left = { sequence: this.sequence, set_id: this.data.set_id, ...told, turns: this.unheard };
    this.left = left;
    const exact = this.data.ask && await answerAhead(this.data.ask + told.angle);
    if (this.left !== left) return; // the hand has moved on
    if (!exact) return this.pass();
    this.data.exact = exact;
    this.frame.dataset.exact = exact.angle;
    this.drawing ||= requestAnimationFrame(() => this.draw());
    requestAnimationFrame(() => requestAnimationFrame(() => this.pass()));
  }

  pass() {
    if (this.left) this.component.setStateValue("hand", this.left);
    this.left = undefined;
    this.show();
    if (this.silent) this.say();
  }

  close() {
    this.hands?.stop();
    clearTimeout(this.hands?.waits);
    cancelAnimationFrame(this.drawing);
    clearTimeout(this.telling);
    this.sizes.disconnect();
    this.scrolled.disconnect();
  }
}
