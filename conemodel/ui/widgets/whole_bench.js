// The whole bench: the hub from its side and from its end, with every hand that may be laid on it, all at once.

const KEPT_HAND = "conemodel left-handed";
const QUEUE = 12; // acts that are sent again with the next, so that none is lost on the way
const LOOSE_ROUND = "Drag the locknut's spanner: clockwise as far as you mean to pull, anticlockwise until it comes loose.";

const HANDS = {
  lever: { picture: "side", key: "l", range: [0, 100], buttons: [["toggle", ""]], part: Lever, how: "Drag or press what clamps the hub, to close it and to open it.", keys: "Enter throws it over." },
  "axle end": { picture: "side", name: "Axle end", key: "e", range: [-100, 100], buttons: [["slow", "Rock slowly", "Rock slowly at the axle end"], ["brisk", "Rock briskly", "Rock briskly at the axle end"]], part: Rock, keys: "hold an arrow to push that way, with Shift slowly." },
  rim: { picture: "side", name: "Rim", key: "r", range: [-100, 100], buttons: [["slow", "Rock slowly"], ["brisk", "Rock briskly"]], part: Rock, keys: "hold an arrow to push that way, with Shift slowly." },
  twirl: { picture: "end", name: "Axle", key: "t", range: [0, 60], buttons: [["round", "Turn once round"], ["flick", "Flick, let go"]], part: Twirl, how: "Drag round the axle to turn it in your fingers; let go while it moves to see whether it runs on.", keys: "hold an arrow to turn, space to flick it and let go." },
  locknut: { picture: "end", name: "Locknut spanner", key: "n", range: [0, 100], buttons: [["undo", "Undo"], ["tighten", "Tighten"]], part: Locknut, how: LOOSE_ROUND, keys: "hold right arrow to pull it tight, the longer the harder; hold left arrow until it comes loose." },
  turn: { picture: "end", name: "Cone spanner", key: "c", range: [-600, 600], buttons: [["out", "Out"], ["in", "In (clockwise)"]], part: Turn, keys: "right arrow in, left arrow out, one minute of the clock face at a time; with Shift, a sixth of a minute." },
};

const FRAMES = {
  side: ({ drawing }, width, height) => {
    const [left, top, wide, high] = drawing.sheet.view;
    return [[left - BESIDE, top, wide + 2 * BESIDE, high / 2 + LOWER], [6, 24, width - 12, height - 76]];
  },
  end: ({ drawing }, width, height) => [drawing.sheet.view, [8, 4, width - 16, height - 8]],
};

class WholeBench {
  constructor(root) {
    this.root = root;
    this.frame = this.find(".whole-bench");
    this.words = this.find(".told span");
    this.done = this.find(".told small");
    this.how = this.find(".side .how");
    this.sound = new Sound(this.find(".sound"));
    this.sequence = 0;
    this.acts = [];
    this.canvas = { focus() {} };
    this.pictures = Object.fromEntries(["side", "end"].map((name) => [name, this.build(name)]));
    if (!this.sound.chosen) new SoundCheck(this);
    this.keepHand();
    this.heights = new ResizeObserver(() => this.frame.style.setProperty("--told", `${this.find(".told").offsetHeight}px`));
    this.heights.observe(this.find(".told"));
    this.frame.addEventListener("keydown", (event) => this.key(event));
  }

  find(what) {
    return this.root.querySelector(what);
  }

  build(picture) {
    const section = this.find(`.from-${picture}`), owner = this, frame = FRAMES[picture];
    const mine = Object.entries(HANDS).filter(([, hand]) => hand.picture === picture);
    const hands = mine.map(([name, hand]) => ({ name, row: buildRow(name, hand), make: (own) => new hand.part(own) }));
    for (const { row } of hands) section.querySelector(".rows").prepend(row);
    const Part = class extends SharedHub {
      constructor(bench) {
        super(bench, { hands, frame, owner });
      }
    };
    return { section, bench: new Bench(section, Part, { status: this.words, sound: this.sound }) };
  }

  take(data) {
    this.data = data;
    this.sequence = Math.max(this.sequence, data.sequence ?? 0);
    useColours(this.frame, data.colours);
    for (const [name, { bench, section }] of Object.entries(this.pictures)) {
      section.hidden = !data.pictures[name];
      if (data.pictures[name]) bench.take({ label: "", ...data.pictures[name] });
    }
    this.each((hand) => this.label(hand));
    this.showHolds();
    if (this.said !== data.said) [this.said, this.done.textContent, this.words.textContent] = [data.said, data.done, data.told];
    if (!this.shown) this.show(Object.values(this.pictures).find(({ section }) => !section.hidden).bench.part.live);
    this.frame.classList.add("cm-landing"); // the focus is led here once letters are heard
  }

  each(what) {
    for (const { bench } of Object.values(this.pictures)) bench.part.hands.forEach(what);
  }

  // What a hand is called, and whether it is usually next.
  label({ name, root, data, handle }) {
    if (!data) return;
    const words = data.name ?? HANDS[name].name;
    handle.firstChild.textContent = words;
    handle.setAttribute("aria-label", data.barred ? `${words}: ${data.barred}` : data.label ?? words);
    root.classList.toggle("next", this.data.next === name);
    if (!data.act) return;
    const toggle = root.querySelector(".toggle");
    toggle.textContent = data.act;
    toggle.setAttribute("aria-label", data.act);
  }

  showHolds() {
    const box = this.find(".holds"), { holds } = this.data;
    box.hidden = !holds.length;
    if (box.children.length !== holds.length) {
      box.replaceChildren(...holds.map(({ name }) => {
        const button = document.createElement("button");
        Object.assign(button, { type: "button" });
        button.addEventListener("click", () => this.hold(name));
        return button;
      }));
    }
    holds.forEach(({ words, on, key }, place) => {
      const button = box.children[place];
      button.innerHTML = `<span></span> <kbd aria-hidden="true">${key.toUpperCase()}</kbd>`;
      button.firstChild.textContent = words;
      button.setAttribute("aria-pressed", String(on));
      button.setAttribute("aria-keyshortcuts", key);
    });
  }

  hold(name) {
    const { on } = this.data.holds.find((hold) => hold.name === name);
    this.report("hold", this.data.set_id, { what: name, on: !on });
  }

  // Letters take a hand up; of what is only on or off they change it.
  key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const hold = this.data.holds.find(({ key }) => key === event.key);
    const [name] = Object.entries(HANDS).find(([, { key }]) => key === event.key) ?? [];
    if (hold) this.hold(hold.name);
    else if (name) this.takeUp(name);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  takeUp(wanted) {
    this.each(({ name, data, barred, part, handle }) => {
      if (name !== wanted || !data) return;
      handle.focus({ preventScroll: true });
      if (barred) this.say(barred);
      else if (name === "lever") part.play();
    });
  }

  // How the hand that is on the hub is used.
  show(hand) {
    this.shown = hand;
    const { how, keys, key } = HANDS[hand.name], said = how ?? hand.find(".how").textContent;
    this.how.textContent = `${said} Keys: ${key.toUpperCase()} takes it up; ${keys}`;
  }

  say(text) {
    this.done.textContent = "";
    if (this.words.textContent !== text) this.words.textContent = text;
  }

  report(gesture, set_id, told) {
    this.sequence += 1;
    this.acts = [...this.acts, { sequence: this.sequence, gesture, set_id, ...told }].slice(-QUEUE);
    this.component.setStateValue("hand", { sequence: this.sequence, set_id: this.data.set_id, acts: this.acts });
  }

  // The mirrored bench is kept for the next hub, where a browser keeps anything.
  keepHand() {
    const button = this.find(".left");
    const put = (left) => {
      button.setAttribute("aria-pressed", String(left));
      this.frame.classList.toggle("left-handed", left);
    };
    put(readKept(KEPT_HAND) === true);
    button.addEventListener("click", () => {
      const left = !this.frame.classList.contains("left-handed");
      put(left);
      keep(KEPT_HAND, left);
    });
  }

  close() {
    for (const { bench } of Object.values(this.pictures)) bench.close();
    this.heights.disconnect();
    this.sound.close();
  }
}

function buildRow(name, { key, range: [low, high], buttons }) {
  const row = document.createElement("div");
  row.className = `hand ${name.replace(" ", "-")}`;
  row.innerHTML = `<div class="grip" role="slider" tabindex="0" aria-valuemin="${low}" aria-valuemax="${high}" aria-valuenow="0"
    aria-keyshortcuts="${key}"><span></span> <kbd aria-hidden="true">${key.toUpperCase()}</kbd></div>${buttons
    .map(([what, words, said = words]) => `<button type="button" class="${what}" aria-label="${said}">${words}</button>`).join("")}<p class="how" hidden></p>`;
  return row;
}

export default (component) => standAt(component, (root) => new WholeBench(root));
