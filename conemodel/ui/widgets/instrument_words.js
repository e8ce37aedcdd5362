// What the instrument says: headline, acts, and the sentences for a screen reader.

const SHORT_NAMES = { contact: "Contact", ridden: "Ridden" }; // on a phone
const NAMES = {
  contact: "Finger contact", backed_off: "Backed off", locked: "Locked", clamped: "Clamped", ridden: "Under the rider",
};
const MINUTE_DEG = 6, MANY = 20; // of a minute of a clock face; half minutes above which whole ones are said

const degrees = (angle) => Math.abs(Math.round(angle));
const side = (angle) => (angle >= 0 ? "out" : "in");

// Minutes of a clock face as Python says them: to the half, above ten to the whole.
export function clockMinutes(angle) {
  const halves = (2 * Math.abs(angle)) / MINUTE_DEG, step = halves <= MANY ? 1 : 2;
  const rounded = step * Math.floor(halves / step + 0.5 + 1e-9), whole = Math.floor(rounded / 2);
  if (rounded % 2) return whole ? `${whole}½ minutes` : "half a minute";
  return `${whole} minute${whole === 1 ? "" : "s"}`;
}

// Digits of every play printed: where the state cannot be told a third would promise too much.
export const digitsOf = ({ question, state }) => (question === "adjustment" && state === null ? 2 : 3);

const isSqueeze = (play, digits) => play < -0.5 * 10 ** -digits;

export const playWords = (play, digits) =>
  `${Math.abs(play).toFixed(digits)} mm ${isSqueeze(play, digits) ? "squeeze" : "play"}`;

export function placeWords(angle) {
  return degrees(angle) < 1 ? "At finger contact" : `${clockMinutes(angle)} ${side(angle)} from finger contact`;
}

const STILL_TO_DO = { contact: "lock it, clamp it", backed_off: "lock it, clamp it", locked: "clamp it" };

// What to do next from the stage in which the hub stands: a cone that is left there may still have to be locked and clamped.
export function actAt({ act }, stage) {
  const first = /^Leave it/.test(act) && STILL_TO_DO[stage];
  return first ? `Leave it there: ${first} and feel it.` : act;
}

function adviceWords(answer, stage) {
  const { turn, beside } = answer;
  if (turn === null || turn === undefined) return actAt(answer, stage);
  return `turn ${side(turn)} by ${clockMinutes(turn)} on a clock face${beside ? `, to the ${beside}` : ""}`;
}

// All of it in one breath: what the live region says on release.
export function sayState(place, hand, answer, clamp) {
  const play = place.plays[place.stage], digits = digitsOf(answer), kind = isSqueeze(play, digits) ? "squeeze" : "play";
  const once = ["clamped", "ridden"].includes(place.stage) ? "It is" : "Once clamped";
  const sure = answer.certainty ? `, ${answer.certainty}` : "", held = hand.nut >= 1 ? `, ${clampWords(clamp, hand.lever)}` : "";
  return `${placeWords(hand.angle)}. ${NAMES[place.stage]}${held}: ${kind} ${Math.abs(play).toFixed(digits)} millimetres. `
    + `${once}: ${answer.words.toLowerCase()}${sure}; ${adviceWords(answer, place.stage).replace(/\.$/, "")}.`;
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

  show(place, { felt }, hide, digits) {
    for (const [stage, button, number, mm, kind] of this.buttons) {
      const play = place.plays[stage], loaded = stage === "ridden";
      put(number, hide ? "" : loaded ? `${ballLoad(felt, play)} N` : Math.abs(play).toFixed(digits));
      put(mm, hide || loaded ? "" : "mm ");
      put(kind, hide ? "" : loaded ? "on a ball" : isSqueeze(play, digits) ? "squeeze" : "play");
      const now = stage === place.stage;
      if (now !== button.hasAttribute("aria-current")) {
        if (now) button.setAttribute("aria-current", "step");
        else button.removeAttribute("aria-current");
      }
      button.classList.toggle("later", STAGES.indexOf(stage) > STAGES.indexOf(place.stage));
    }
  }
}
