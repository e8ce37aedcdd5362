// Where every part of the hub stands while a hand moves: plain functions of the numbers that came from Python.

const STAGES = ["contact", "backed_off", "locked", "clamped", "ridden"];
const TOUCH = 0.5; // degrees: as near to finger contact as this counts as there
const RUN_ON = 0.45; // part of the way of locknut and lever before they press

const share = (x) => Math.min(Math.max(x, 0), 1);
const between = (low, high, part) => low + (high - low) * part;

function onGrid({ from, step }, values, angle) {
  if (typeof values === "number") return values;
  const place = Math.min(Math.max((angle - from) / step, 0), values.length - 1);
  const low = Math.min(Math.floor(place), values.length - 2);
  return between(values[low], values[low + 1], place - low);
}

// End play at each stage [mm], were the hub taken there with the cone at this angle; the exact one where it is known.
export function endPlays({ numbers, exact }, angle) {
  if (exact && Math.abs(exact.angle - angle) < 1e-6) return exact.end_play;
  const { clamped } = numbers.end_play;
  return Object.fromEntries(STAGES.map((stage) => [stage, onGrid(numbers, numbers.end_play[stage] ?? clamped, angle)]));
}

// What is felt at an end play: the columns of `felt` over its end plays, rising.
export function feltAt(felt, name, play) {
  const at = felt.end_play;
  let high = at.findIndex((one) => one >= play);
  if (high < 0) high = at.length - 1;
  if (high === 0) high = 1;
  const part = share((play - at[high - 1]) / (at[high] - at[high - 1]));
  return between(felt[name][high - 1], felt[name][high], part);
}

// The load of the rider on the most loaded ball, to ten newtons: straight lines between serve no better.
export const ballLoad = (felt, play) => 10 * Math.round(feltAt(felt, "ball_load", play) / 10);

// What is said from one position of the cone to the next: `turn` is the one to make, `aim` where the cone should stand.
export function answerAt({ numbers: { answers }, exact }, angle) {
  if (exact && Math.abs(exact.angle - angle) < 1e-6) return exact.answer;
  let row = 0;
  while (row + 1 < answers.from.length && answers.from[row + 1] <= angle) row += 1;
  return answerIn(answers, row);
}

// Why a cone is left outside the green, which holds were everything as assumed; nothing where it is inside.
export function whyBeside({ numbers }, angle) {
  const { good: [tight, loose], unmeasured: [widest], end_play } = numbers, play = onGrid(numbers, end_play.clamped, angle);
  const side = play > loose ? "loose" : play < tight ? "tight" : "";
  return side && widest ? `${side} side of green: ${widest} not measured` : "";
}

const SAID = ["question", "sign", "state", "words", "certainty", "act"];

export function answerIn(answers, row) {
  const words = Object.fromEntries(SAID.map((name) => [name, answers.texts[answers[name][row]]]));
  return { ...words, turn: answers.turn[row], aim: answers.aim[row] };
}

export function stageOf({ angle, nut, lever, load }) {
  if (lever >= 1) return load >= 1 ? "ridden" : "clamped";
  if (nut >= 1) return "locked";
  return Math.abs(angle) < TOUCH ? "contact" : "backed_off";
}

// A cam pulls only from straight out, and least at both ends; a nut first runs up to the frame.
const clampForce = (lever) => Math.sin((share((lever - RUN_ON) / (1 - RUN_ON)) * Math.PI) / 2) ** 2;

// What the clamp is called where its handle stands.
export function clampWords({ name, states }, lever) {
  return `${name} ${stateWords(states, lever)}`;
}

const stateWords = (states, lever) => states[lever >= 1 ? 2 : lever <= 0 ? 0 : 1];

// Everything that follows from where the hands are.
export function follow(data, hand) {
  const plays = endPlays(data, hand.angle), stage = stageOf(hand);
  const push = share((hand.nut - RUN_ON) / (1 - RUN_ON)), force = clampForce(hand.lever);
  const free = Math.abs(hand.angle) < TOUCH ? plays.contact : plays.backed_off;
  const locked = between(free, plays.locked, push), clamped = between(locked, plays.clamped, force);
  const now = between(clamped, plays.ridden, hand.load);
  return { plays, stage, push, force, free, locked, clamped, now, vars: variables({ plays, push, force, now }, hand) };
}

// What the groups of the drawing are moved by. A pinched cone is drawn at its squeeze, over the ball that it flattens.
// `rock`, where there is one, is where the wheel stands between its stops, -1 to 1; at 1 its ball meets the drawn cone.
function variables({ plays, push, force, now }, hand) {
  const near = share(hand.nut / RUN_ON), play = Math.max(now, 0);
  const [rocked, sway] = hand.rock === undefined ? [0, 0] : [0.5 * (1 + hand.rock) * play, hand.rock * play];
  return {
    cone: now, nut: hand.nut, off: 1 - near, clamp: force, lever: hand.lever, apart: 1 - share(hand.lever / RUN_ON), angle: hand.angle, load: hand.load,
    rocked, sway, gap: now - rocked, touch: Number(now - rocked <= 0), cone_flank: 2 * push - 1, nut_flank: -near,
    aim: now - plays.clamped, at_backed_off: plays.backed_off, at_locked: plays.locked,
    advised: hand.angle, advising: 0,
  };
}

// The acts from where the hub is to where it is wanted, in the order in which hands can do them.
export function planActs(hand, wanted) {
  const turning = Math.abs(wanted.angle - hand.angle) > 1e-9, rank = STAGES.indexOf(wanted.stage);
  const undone = (need) => turning || rank < need;
  const acts = [];
  if (hand.load > 0 && undone(4)) acts.push(["load", 0]);
  if (hand.lever > 0 && undone(3)) acts.push(["lever", 0]);
  if (hand.nut > 0 && undone(2)) acts.push(["nut", 0]);
  if (turning) acts.push(["angle", wanted.angle]);
  const after = Object.assign({ ...hand }, Object.fromEntries(acts));
  for (const [name, need] of [["nut", 2], ["lever", 3], ["load", 4]]) {
    if (rank >= need && after[name] < 1) acts.push([name, 1]);
  }
  return acts;
}
