// What the instrument says: headline, acts, and the sentences for a screen reader.

const SHORT_NAMES = { contact: "Contact", ridden: "Ridden" }; // on a phone
const NAMES = {
  contact: "Finger contact", backed_off: "Backed off", locked: "Locked", clamped: "Clamped", ridden: "Under the rider",
};
const OVER = {
  contact: "Finger contact. Once clamped, it would be", backed_off: "Backed off. Once clamped, it will be",
  locked: "Locked. Once clamped, it will be", clamped: "Clamped, it is", ridden: "Under the rider, it stays",
};
const SHORT_OVER = { clamped: "Clamped, it is", ridden: "Ridden, it stays" }; // on a phone
const KIND = { loose: "loose", right: "right", tight: "tight" };
const MINUTE_DEG = 6;

const degrees = (angle) => Math.abs(Math.round(angle));
const side = (angle) => (angle >= 0 ? "out" : "in");

// Minutes of a clock face, to the half where there are few.
export function clockMinutes(angle) {
  const halves = Math.round((2 * Math.abs(angle)) / MINUTE_DEG), whole = Math.floor(halves / 2);
  const number = halves < 20 && halves % 2 ? `${whole || ""}½` : String(Math.round(halves / 2));
  return `${number} minute${number === "1" || number === "½" ? "" : "s"}`;
}

export const playWords = (play, digits = 3) =>
  `${Math.abs(play).toFixed(digits)} mm ${play < -0.5 * 10 ** -digits ? "squeeze" : "play"}`;

export function placeWords(angle) {
  return degrees(angle) < 1 ? "At finger contact" : `${clockMinutes(angle)} ${side(angle)} from finger contact`;
}

function adviceWords({ turn, act }) {
  if (turn === null || turn === undefined) return act;
  return `turn ${side(turn)} by ${clockMinutes(turn)} on a clock face`;
}

// All of it in one breath: what the live region says on release.
export function sayState(place, hand, answer, clamp) {
  const play = place.plays[place.stage], kind = play < 0 ? "squeeze" : "play";
  const once = ["clamped", "ridden"].includes(place.stage) ? "It is" : "Once clamped";
  const sure = answer.certainty ? `, ${answer.certainty}` : "", held = hand.nut >= 1 ? `, ${clampWords(clamp, hand.lever)}` : "";
  return `${placeWords(hand.angle)}. ${NAMES[place.stage]}${held}: ${kind} ${Math.abs(play).toFixed(3)} millimetres. `
    + `${once}: ${answer.words.toLowerCase()}${sure}; ${adviceWords(answer).replace(/\.$/, "")}.`;
}

// The letters of a word are exchanged where they stand: a new node would lay out the page around it.
const put = (node, text) => {
  const { firstChild: letters } = node;
  if (!letters) node.append(text);
  else if (letters.data !== text) letters.data = text;
};
const call = (node, names) => {
  if (node.className !== names) node.className = names;
};
// Long words are set smaller, so that the frame keeps its height.
const sized = ({ length }) => (length < 11 ? "brief" : length < 16 ? "short" : length < 27 ? "middling" : "long");

export class Headline {
  constructor(host, onGo) {
    this.host = host;
    const find = (what) => host.querySelector(what);
    [this.over, this.sign, this.words, this.sure] = [".state .over", ".state .sign", ".state .words", ".state .sure"].map(find);
    [this.turnOver, this.arrow, this.act, this.more] = [".turn .over", ".turn .sign", ".turn .words", ".turn .sure"].map(find);
    this.go = find(".go");
    this.go.addEventListener("click", onGo);
  }

  show(place, answer, hidden, clockwiseIn) {
    this.host.hidden = hidden;
    const key = `${this.narrow}|${place.stage}|${answer.words}|${answer.certainty}|${answer.act}|${answer.turn}|${answer.sign}`;
    if (hidden || key === this.key) return;
    this.key = key;
    this.showState(place.stage, answer);
    this.showTurn(answer, clockwiseIn);
  }

  showState(stage, answer) {
    const [words, about = ""] = answer.words.split(": ");
    put(this.over, answer.question === "adjustment" ? this.narrow ? SHORT_OVER[stage] ?? "Once clamped" : OVER[stage] : "Before the adjustment");
    put(this.sign, answer.sign);
    this.words.closest(".state").setAttribute("role", answer.question === "safe" ? "alert" : "group");
    put(this.words, words);
    put(this.sure, [about, answer.certainty].filter(Boolean).join(", "));
    const kind = answer.question === "adjustment" ? KIND[answer.state] ?? "unsure" : answer.question;
    call(this.host, `head ${kind} ${sized(words)}${answer.turn === null ? "" : " turning"}`);
  }

  showTurn(answer, clockwiseIn) {
    const { turn, act } = answer, turning = turn !== null && turn !== undefined;
    this.go.disabled = !turning;
    if (turning) {
      const clockwise = turn < 0 === clockwiseIn;
      const way = clockwise ? "clockwise" : "anticlockwise";
      put(this.turnOver, this.narrow ? way : `Turn the cone ${way}`);
      put(this.arrow, clockwise ? "↻" : "↺");
      put(this.act, `${degrees(turn)}° ${side(turn)}`);
      put(this.more, `${clockMinutes(turn)} on a clock face`);
    } else {
      put(this.turnOver, answer.question === "adjustment" ? "Turn of the cone" : "Do this first");
      put(this.arrow, "");
      put(this.act, act.replace(/\.$/, ""));
      put(this.more, "");
    }
    call(this.act.parentElement, `big ${turning ? "brief" : sized(act)}`);
  }
}

// The five stages as buttons; the fifth shows the load on one ball, which is all the rider changes in the upper half.
export class Acts {
  constructor(host, onStage) {
    this.buttons = STAGES.map((stage) => {
      const item = host.appendChild(document.createElement("li")), button = item.appendChild(document.createElement("button"));
      button.type = "button";
      button.dataset.stage = stage;
      button.innerHTML = `<span class="name"><span class="full">${NAMES[stage]}</span><span class="few">${SHORT_NAMES[stage] ?? NAMES[stage]}</span></span>`
        + `<span class="value"><b></b> <small><span class="mm">mm </span><span class="kind"></span></small></span>`;
      button.addEventListener("click", () => onStage(stage));
      return [stage, button, ...["b", ".mm", ".kind"].map((what) => button.querySelector(what))];
    });
  }

  show(place, { felt }, hide) {
    for (const [stage, button, number, mm, kind] of this.buttons) {
      const play = place.plays[stage], loaded = stage === "ridden";
      put(number, hide ? "" : loaded ? `${ballLoad(felt, play)} N` : Math.abs(play).toFixed(3));
      put(mm, hide || loaded ? "" : "mm ");
      put(kind, hide ? "" : loaded ? "on a ball" : play < -0.0005 ? "squeeze" : "play");
      const now = stage === place.stage;
      if (now !== button.hasAttribute("aria-current")) {
        if (now) button.setAttribute("aria-current", "step");
        else button.removeAttribute("aria-current");
      }
      button.classList.toggle("later", STAGES.indexOf(stage) > STAGES.indexOf(place.stage));
    }
  }
}
