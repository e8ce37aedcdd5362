// The headline: the state with how sure it is, and the turn to make; it keeps its height whatever it says of one hub.

const OVER = {
  contact: "Finger contact. Once clamped, it would be", backed_off: "Backed off. Once clamped, it will be",
  locked: "Locked. Once clamped, it will be", clamped: "Clamped, it is", ridden: "Under the rider, it stays",
};
const SHORT_OVER = { clamped: "Clamped, it is", ridden: "Ridden, it stays" }; // on a phone
const KIND = { loose: "loose", right: "right", tight: "tight" };
const ROUNDING = 3; // degrees by which a turn as it is said may miss where it should end
const LINES = { brief: 1, short: 1, middling: 2 }; // most that words of a size take up before they are set smaller

const call = (node, names) => {
  if (node.className !== names) node.className = names;
};

export class Headline {
  constructor(host, onGo) {
    this.host = host;
    const find = (what) => host.querySelector(what);
    [this.over, this.sign, this.words, this.sure] = [".state .over", ".state .sign", ".state .words", ".state .sure"].map(find);
    [this.turnOver, this.arrow, this.act, this.more] = [".turn .over", ".turn .sign", ".turn .words", ".turn .sure"].map(find);
    this.go = find(".go");
    this.go.addEventListener("click", onGo);
  }

  // Makes room for all that may be said of a hub, so that nothing below moves while a finger does.
  reserve(answers, narrow, clockwiseIn) {
    Object.assign(this, { narrow, sizes: new Map(), key: "" });
    if (this.host.hidden) return;
    Object.assign(this.host.style, { minHeight: "", contain: "none" });
    const high = longest(answers).map((answer) => ({ ...answer, beside: longestReason(answers, answer) })).map((answer) => {
      this.write("contact", answer, clockwiseIn);
      return this.host.offsetHeight;
    });
    Object.assign(this.host.style, { minHeight: `${Math.max(...high)}px`, contain: "" });
  }

  show(place, answer, hidden, clockwiseIn) {
    this.host.hidden = hidden;
    const key = `${place.stage}|${answer.words}|${answer.certainty}|${answer.act}|${answer.turn}|${answer.sign}|${answer.beside}`;
    if (hidden || key === this.key) return;
    this.key = key;
    this.words.closest(".state").setAttribute("role", answer.question === "safe" ? "alert" : "group");
    this.write(place.stage, answer, clockwiseIn);
  }

  write(stage, answer, clockwiseIn) {
    const kind = answer.question === "adjustment" ? KIND[answer.state] ?? "unsure" : answer.question;
    call(this.host, `head ${kind}${answer.turn === null ? "" : " turning"}`);
    this.writeState(stage, answer);
    this.writeTurn({ ...answer, act: actAt(answer, stage) }, clockwiseIn);
  }

  writeState(stage, answer) {
    const [words, about = ""] = answer.words.split(": ");
    const over = this.narrow ? SHORT_OVER[stage] ?? "Once clamped" : OVER[stage];
    // "it is" goes with a state alone
    put(this.over, answer.question !== "adjustment" ? "Before the adjustment" : /^Cannot/.test(words) ? over.replace(/, it.*/, "") : over);
    put(this.sign, answer.sign);
    put(this.words, words);
    put(this.sure, [about, answer.certainty].filter(Boolean).join(", "));
    this.fit(this.words, words);
  }

  writeTurn({ turn, act, question, beside }, clockwiseIn) {
    const turning = turn !== null, clockwise = turn < 0 === clockwiseIn, way = clockwise ? "clockwise" : "anticlockwise";
    this.go.disabled = !turning;
    put(this.arrow, turning ? (clockwise ? "↻" : "↺") : "");
    if (turning) put(this.turnOver, this.narrow ? way : `Turn the cone ${way}`);
    else put(this.turnOver, question === "adjustment" ? "Turn of the cone" : "Do this first");
    put(this.act, turning ? `${degrees(turn)}° ${side(turn)}` : act.replace(/\.$/, ""));
    put(this.more, moreWords({ turn, act, question, beside }, this.narrow));
    this.fit(this.act, turning ? "00° out" : act);
  }

  // Long words are set smaller; which size words of one place have is found once.
  fit(node, words) {
    const big = node.parentElement, key = `${node === this.act} ${words}`;
    if (!this.sizes.has(key)) {
      const size = Object.keys(LINES).find((name) => {
        big.className = `big ${name}`;
        return node.offsetHeight < (LINES[name] + 0.5) * parseFloat(getComputedStyle(big).lineHeight);
      });
      this.sizes.set(key, size ?? "long");
    }
    call(big, `big ${this.sizes.get(key)}`);
  }
}

// Of all that may be said the longest certainty with each state, and with a turn and without.
function longest({ numbers: { answers }, exact }) {
  const found = new Map();
  const meet = (answer) => {
    const key = `${answer.words}|${answer.turn === null ? answer.act : ""}`, before = found.get(key);
    if (!before || (answer.certainty ?? "").length > (before.certainty ?? "").length) found.set(key, answer);
  };
  answers.from.forEach((_, row) => meet(answerIn(answers, row)));
  meet(exact.answer);
  return [...found.values()];
}

// How far a turn is on a clock face, and why it ends, or the cone is left, outside the green.
function moreWords({ turn, act, question, beside }, narrow) {
  const why = question === "adjustment" ? beside : "";
  if (turn === null) return why && /^Leave/.test(act) ? why[0].toUpperCase() + why.slice(1) : "";
  const minutes = clockMinutes(turn);
  if (!why) return `${minutes} on a clock face`;
  return `${minutes}${narrow ? "" : " on a clock face"}, to the ${why}`;
}

// Of the reasons that a turn may end outside the green, or a cone be left there.
function longestReason(data, { turn, aim }) {
  const { numbers } = data, ends = turn === null ? [numbers.from, numbers.to] : [aim - ROUNDING, aim + ROUNDING];
  return ends.map((angle) => whyBeside(data, angle)).reduce((a, b) => (b.length > a.length ? b : a));
}
