// What fingers meet that twirl an axle: drag, dents and grit. SI; plain functions as in feel.js.

// Grit: short bumps of drag, scattered over several turns so that they do not come back every turn.
export function makeGrit({ amplitude, per_turn: perTurn, seed }, turns = 7, perBin = 720) {
  const bins = new Float64Array(turns * perBin);
  const draw = seeded(seed);
  for (let bump = 0; bump < Math.round(perTurn * turns); bump += 1) {
    const at = Math.floor(draw() * bins.length), height = amplitude * (0.3 + 0.7 * draw());
    for (let i = -2; i <= 2; i += 1) {
      bins[(at + i + bins.length) % bins.length] += height * (1 - Math.abs(i) / 3);
    }
  }
  return bins;
}

// Table over one span of angle, repeated for ever.
export function around(table, angle, span = 2 * Math.PI) {
  const n = table.length;
  const place = ((((angle / span) % 1) + 1) % 1) * n;
  const i = Math.floor(place) % n;
  return table[i] + (table[(i + 1) % n] - table[i]) * (place - Math.floor(place));
}

export function makeTwirl(d) {
  return { ...d, bumps: makeGrit(d.grit), notches: findNotches(d.dents, d.span), most: fingerLag(d.slip, d) };
}

const NOTCH = 0.15; // rad to either side of where a ball falls into a dent
const FAINT = 0.003, DEEP = 0.1; // N·m of a notch that is just heard, and of one as loud as they come

// How loud each place of the table clicks, 0 to 1: where the pull falls through zero within the width of a dent. A pull
// that swings slowly, once a turn, has no such place.
export function findNotches(dents, span) {
  const all = Math.max(...dents) - Math.min(...dents);
  const n = dents.length, reach = Math.max(1, Math.round((NOTCH / span) * n)), loud = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    if (!(dents[i] > 0 && dents[(i + 1) % n] <= 0)) continue;
    let high = 0, low = 0;
    for (let k = -reach; k <= reach; k += 1) {
      high = Math.max(high, dents[(i + k + n) % n]);
      low = Math.min(low, dents[(i + k + n) % n]);
    }
    const depth = high - low;
    loud[i] = depth < Math.max(FAINT, 0.5 * all) ? 0 : clamp(Math.log(depth / FAINT) / Math.log(DEEP / FAINT), 0.1, 1);
  }
  return loud;
}

const cellOf = (angle, span, n) => Math.floor((((angle / span) % 1) + 1) % 1 * n) % n;

export const restTwirl = (at = 0) => ({ at, speed: 0, hand: { at, speed: 0 }, resist: 0, rough: 0, grit: 0, click: 0, rasp: 0 });

// One step of the axle; `target` is where the fingers want to be, or null when they have let go.
export function stepTwirl(axle, s, target, dt = STEP) {
  const grit = around(axle.bumps, s.at, 14 * Math.PI);
  const dents = around(axle.dents, s.at, axle.span);
  const friction = around(axle.friction, s.at, axle.span) + grit;
  let torque = dents, damping = axle.grease;
  if (target !== null) {
    moveHand(s.hand, target, dt);
    s.hand.at = clamp(s.hand.at, s.at - axle.most, s.at + axle.most);
    const lag = s.hand.at - s.at, pull = fingerTorque(lag, axle);
    const flesh = 1.2 * Math.sqrt(((axle.firm + Math.abs(pull)) / axle.give) * axle.inertia);
    torque += pull + flesh * s.hand.speed;
    damping += flesh;
  } else {
    s.hand.at = s.at;
    s.hand.speed = s.speed;
  }
  const from = cellOf(s.at, axle.span, axle.notches.length);
  stepTurning(s, { torque, friction, damping, inertia: axle.inertia }, dt);
  hearTwirl(axle, s, { from, grit, resist: friction - dents }, dt);
}

// A ball that falls into a dent clicks, a grain that comes under one rasps, a drag that changes quickly rustles.
function hearTwirl(axle, s, { from, grit, resist }, dt) {
  const to = cellOf(s.at, axle.span, axle.notches.length);
  s.click = to === from ? 0 : axle.notches[to];
  s.rasp = s.speed && grit > 0 && s.grit === 0 ? clamp(grit / axle.grit.amplitude, 0.2, 1) : 0;
  s.grit = grit;
  // Only quick changes of drag are roughness; a slow once-a-turn grab is felt but not heard.
  s.rough += (Math.abs(resist - s.resist) / dt - s.rough) * (dt / 0.03) * (s.speed ? 1 : 0);
  if (!s.speed) s.rough *= 1 - dt / 0.03;
  s.resist = resist;
}
