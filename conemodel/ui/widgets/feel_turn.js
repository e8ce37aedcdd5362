// What a hand meets that turns a cone with its spanner. SI; plain functions as in feel.js.

// Where the cone gets to when the hand asks for `target` (angle counted outward): as deep as its effort allows.
export function turnTo(target, now, { angle, effort, limit }) {
  if (!angle.length) return target;
  const deepest = deepestAngle(angle, effort, limit);
  return target >= now ? target : Math.max(target, Math.min(now, deepest));
}

// Torque that turning in meets with the cone at `at`.
export const effortAt = ({ angle, effort }, at) => (angle.length ? Math.max(lookUp(angle, effort, at).value, 0) : 0);

// Where the cone stands once the hand on the spanner has gone to `target`: it stays behind by what the fingers give. Its
// thread holds it where it is while the hand comes back.
export function followHand(target, now, resist) {
  if (!resist.angle.length || target >= now) return target;
  let low = target, high = target + fingerLag(resist.limit, resist);
  for (let i = 0; i < 40; i += 1) {
    const middle = (low + high) / 2;
    if (middle - target < fingerLag(effortAt(resist, middle), resist)) low = middle; else high = middle;
  }
  return turnTo(Math.min(now, low), now, resist);
}

// How hard a pull is, from 0 where it begins to 1 at the most that the hand can do, as fingers tell it.
export const strainOf = (torque, resist) => clamp(fingerLag(torque, resist) / fingerLag(resist.limit, resist), 0, 1);

// A spanner that strains creaks: higher, louder and closer together the harder it is pulled.
export const creakNotes = (strain) => [
  { hz: 80 + 140 * strain, gain: 0.1 + 0.6 * strain, decay: 0.035, form: "sawtooth" },
  { hz: 310 + 220 * strain, gain: 0.25 * strain, decay: 0.02, form: "triangle" },
];
export const creakEvery = (strain) => (Math.PI / 180) * (2.4 - 1.6 * strain);

// A ball that falls into a dent: short and hard.
export const clickNotes = (level) => [
  { hz: 720, gain: 0.5 * level, decay: 0.012 },
  { hz: 240, gain: 0.6 * level, decay: 0.03 },
];

// The effort falls as the cone comes out: the deepest place is where it equals what the hand can do.
export function deepestAngle(angle, effort, limit) {
  if (effort[effort.length - 1] > limit) return Infinity;
  if (effort[0] <= limit) return -Infinity;
  let i = effort.length - 1;
  while (i > 0 && effort[i - 1] <= limit) i -= 1;
  const fall = effort[i - 1] - effort[i];
  return angle[i] - ((angle[i] - angle[i - 1]) * (limit - effort[i])) / fall;
}

// Minutes of a clock face in words, never finer than the eye.
export function minutesInWords(turned) {
  const exact = Math.abs(turned) / (Math.PI / 30), whole = Math.round(exact);
  if (exact < 0.08) return "where it started";
  const over = exact - whole;
  const near = Math.abs(over) < 0.08 ? "" : over > 0 ? "a little past " : "just short of ";
  const words = whole ? `${near}${whole} ${whole === 1 ? "minute" : "minutes"}` : "less than a minute";
  return `${words} ${turned > 0 ? "out" : "in (clockwise)"}`;
}
