// A page whose time passes only when a test says so, and what its widgets draw and send, kept to be read.
// Real time would make a slow machine's hand another hand.
const FRAME = 50; // ms
const PATIENCE = 3000; // real frames
let now = 0, last = 0, frames = [], timers = [];
window.realFrame = window.requestAnimationFrame.bind(window);
performance.now = () => now;
window.requestAnimationFrame = (what) => (frames.push([(last += 1), what]), last);
window.cancelAnimationFrame = (gone) => { frames = frames.filter(([number]) => number !== gone); };
window.setTimeout = (what, wait = 0) => (timers.push([(last += 1), now + wait, what]), last);
window.clearTimeout = (gone) => { timers = timers.filter(([number]) => number !== gone); };

window.pass = (wait) => {
  const lags = [];
  for (const end = now + wait; now < end;) {
    now += FRAME;
    const due = timers.filter(([, at]) => at <= now), drawn = frames;
    timers = timers.filter(([, at]) => at > now);
    frames = [];
    for (const [, , what] of due) what();
    for (const [, what] of drawn) what(now);
    lags.push(window.lag);
  }
  return lags;
};

// A pointer has arrived once the page has heard of it, however late it is told. Then time passes; where the axle's mark
// stands [minutes of the clock].
const pointer = { x: 0, y: 0, down: false };
for (const [event, down] of [["pointerdown", true], ["pointermove", null], ["pointerup", false]]) {
  addEventListener(event, ({ clientX: x, clientY: y }) => Object.assign(pointer, { x, y, down: down ?? pointer.down }), { capture: true });
}
window.arrival = async ({ x, y, down, wait }) => {
  const there = () => pointer.down === down && Math.hypot(pointer.x - x, pointer.y - y) < 2;
  for (let i = 0; !there(); i += 1) {
    if (i === PATIENCE) throw new Error(`the pointer never came to ${x}, ${y}`);
    await new Promise(window.realFrame);
  }
  window.pass(wait);
  return Number(window.host.shadowRoot.querySelector(".hand.twirl [role=slider]").ariaValueNow);
};

// What the latest pictures show. Fingers on the tyre are the first that is moved to on the picture from the side; the
// wedge between hand and axle is the only arc on that from the end, its outer edge first.
const pen = CanvasRenderingContext2D.prototype, { arc, clearRect, fillText, translate } = pen;
const isOf = (canvas, picture) => canvas.parentElement?.parentElement?.className === picture;
window.lag = 0;
window.fingers = null;
window.written = new Set();
pen.clearRect = function (...box) {
  if (isOf(this.canvas, "from-end")) window.lag = 0;
  if (isOf(this.canvas, "from-side")) window.fingers = null;
  window.written.clear();
  return clearRect.apply(this, box);
};
pen.arc = function (x, y, radius, from, to, back) {
  if (isOf(this.canvas, "from-end")) window.lag ||= to - from;
  return arc.call(this, x, y, radius, from, to, back);
};
pen.translate = function (x, y) {
  if (isOf(this.canvas, "from-side")) window.fingers ??= x;
  return translate.call(this, x, y);
};
pen.fillText = function (text, ...place) {
  window.written.add(text);
  return fillText.call(this, text, ...place);
};

// What was sent; a finger's press is heard a little after it.
window.sent = [];
window.heard = async (frames) => {
  for (let i = 0; i < frames && !window.sent.length; i += 1) await new Promise(window.realFrame);
  return window.sent.length > 0;
};
window.received = async () => {
  await window.heard(PATIENCE);
  return window.sent.splice(0);
};

window.show = async (told) => {
  const data = JSON.parse(told);
  if (window.shownKey !== data.key) {
    document.body.replaceChildren();
    window.shownKey = data.key;
    window.host = document.body.appendChild(document.createElement("div"));
    window.host.attachShadow({ mode: "open" }).innerHTML = window.markup;
  }
  const setStateValue = (name, value) => window.sent.push(value);
  window.component({ parentElement: window.host.shadowRoot, data, setStateValue });
  for (let i = 0; i < 2; i += 1) await new Promise(window.realFrame);
};
