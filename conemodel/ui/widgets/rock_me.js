// The first page's hub: rocked it knocks, clamped it stops, twirled it is smooth. What was done is kept here only.

const WIDE = 1000, TABLET = 620; // px of the picture's own width

const WORDS = {
  rock: ["Rock me.", "Take the tyre and push it from side to side."],
  knocks: ["It knocks.", "The cone is a hair off the ball. Now close the lever."],
  shut: ["Lever shut.", "Open it again and rock the rim first: what does the lever take up?"],
  stops: ["It stops.", "Was that right? Twirl it: stroke the tyre up and down."],
  smooth: ["Smooth."],
};

// What may be said of a hub that neither knocks nor drags: the state only where it can be told, else why not.
const judgedWords = ({ state, words, why }) => (state === null ? why : `${words}. ${why}`);

// What is said next, from what the hands have done.
export function nextWords({ shut, knocked, twirled }) {
  if (!shut) return knocked ? "knocks" : "rock";
  return twirled ? "smooth" : knocked ? "stops" : "shut";
}

export default (component) => standAt(component, (root) => new RockMe(root, component.data));

class RockMe {
  constructor(root, data) {
    const find = (what) => root.querySelector(what);
    this.data = data;
    this.frame = find(".rock-me");
    this.texts = Object.fromEntries(["h1", ".say p", ".play", ".sure", ".scale", ".hub", ".named"].map((what) => [what, find(what)]));
    this.knocks = new Set();
    this.sound = new Sound(find(".sound"));
    this.hands = new Hands({ numbers: {}, clamp: data.clamp, onShow: () => this.show(), onRest: () => {}, onSay: () => {} });
    this.hands.place(data.exact.angle, "locked");
    this.hub = new RockedHub(find(".picture"), data);
    this.wheel = new RockedWheel({
      hub: this.hub, hands: this.hands, onKnock: (stop, level) => this.knock(stop, level), onTwirl: () => this.twirl(),
    });
    this.lever = holdClamp(this.hub, this.hands);
    this.name(find(".picture"));
    this.next = find(".next");
    this.next.addEventListener("click", () => this.component.setTriggerValue("go", true));
    put(this.next, data.next);
    put(this.texts[".hub"], data.name);
    put(this.texts[".scale"], `One ball, its cup and its cone. Gap drawn ${data.factor} × the parts.`);
    this.sizes = new ResizeObserver(() => this.layout());
    this.sizes.observe(this.frame);
  }

  // The hub it was made with stays; only what stands around it may change.
  take({ colours, above, below }) {
    useColours(this.frame, colours);
    this.frame.style.setProperty("--beside", `${above + below}px`);
    this.frame.style.setProperty("--above", `${above}px`);
  }

  layout() {
    const width = this.frame.clientWidth, kind = width >= WIDE ? "wide" : width >= TABLET ? "tablet" : "phone";
    if (!width) return;
    this.frame.className = `instrument rock-me ${kind}`;
    this.placed = true;
    const { cx, r } = this.hub.place(width, this.frame.clientHeight, kind);
    this.frame.style.setProperty("--lens", `${cx + r}px`);
    this.draw();
  }

  show() {
    this.drawing ||= requestAnimationFrame(() => this.draw());
  }

  draw() {
    this.drawing = 0;
    if (!this.placed) return;
    const { hands, data, texts } = this, { at } = hands, place = follow(data, at), shut = at.lever >= 1;
    if (!shut) {
      this.twirled = false;
      this.wheel.forget();
    }
    const step = nextWords({ shut, knocked: this.knocks.size > 1, twirled: this.twirled }), [head, next] = WORDS[step];
    const { answer } = data.exact, done = step === "smooth";
    this.hub.show(place, at);
    this.hub.point(step);
    this.frame.dataset.step = step;
    this.next.hidden = !done;
    put(texts.h1, head);
    put(texts[".say p"], next ?? judgedWords(answer));
    put(texts[".sure"], done ? answer.certainty : "");
    put(texts[".play"], shut ? "No play at the rim." : `${data.rim.toFixed(2)} mm of play at the rim.`);
    this.lever("");
    this.wheel.show();
  }

  knock(stop, level) {
    this.knocks.add(stop);
    this.sound.knock(level, 0);
    this.hub.flash(stop > 0);
    this.show();
  }

  twirl() {
    this.twirled = true;
    this.show();
  }

  // The part under the pointer is named beside it.
  name(picture) {
    const named = this.texts[".named"];
    const point = (event) => {
      const words = event.target.closest?.(".part")?.querySelector("title")?.textContent ?? "";
      put(named, words);
      const box = this.frame.getBoundingClientRect(), x = event.clientX - box.left, y = event.clientY - box.top;
      named.classList.toggle("left", x > box.width - 190);
      Object.assign(named.style, { left: `${x}px`, top: `${y}px` });
    };
    for (const kind of ["pointerover", "pointermove", "pointerdown"]) picture.addEventListener(kind, point);
    // A finger has left before its name is read.
    picture.addEventListener("pointerleave", (event) => event.pointerType === "touch" || put(named, ""));
  }

  close() {
    this.hands.stop();
    this.wheel.stop();
    this.sound.close();
    cancelAnimationFrame(this.drawing);
    this.sizes.disconnect();
  }
}
