// What the hand meets, as plain functions: no page, no clock, no sound. SI throughout (m, N, kg, rad, N·m, s).
// Every step function is called with the same fixed STEP, whatever the frame rate, so that a slow machine
// feels the same as a fast one.

export const STEP = 0.00025;

const clamp = (value, low, high) => Math.min(high, Math.max(low, value));

// Index i of the piece [i, i+1] of the ascending list `xs` that holds x; the end pieces reach to infinity.
function piece(xs, x) {
  let low = 0, high = xs.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (xs[middle] <= x) low = middle; else high = middle;
  }
  return low;
}

// Value and slope of a piecewise straight table; past either end the last slope is carried on.
export function lookUp(xs, ys, x) {
  let i = piece(xs, x);
  while (i > 0 && xs[i + 1] === xs[i]) i -= 1;
  const width = xs[i + 1] - xs[i];
  const slope = width > 0 ? (ys[i + 1] - ys[i]) / width : 0;
  return { value: ys[i] + slope * (x - xs[i]), slope };
}

// Two springs in series: the same force moves the bearing by x and the wheel by F/k.
export function addFlex(movement, force, stiffness) {
  return stiffness > 0 ? movement.map((x, i) => x + force[i] / stiffness) : movement.slice();
}

// A hand held still at h, itself a spring of stiffness k, on a table F(x): solves k (h - x) = F(x) exactly.
// h = x + F/k rises along the table even where F is level (free travel) or x is (rigid), so it can be inverted.
export function settle(movement, force, stiffness, hand) {
  const reach = addFlex(movement, force, stiffness);
  const x = lookUp(reach, movement, hand).value;
  return { movement: x, force: stiffness * (hand - x) };
}

// The stretch of the table without force.
export function freeTravel(movement, force) {
  const loose = movement.filter((x, i) => Math.abs(force[i]) < 1e-9);
  if (loose.length < 2) return { low: 0, high: 0, span: 0 };
  const low = loose[0], high = loose[loose.length - 1];
  return { low, high, span: high - low };
}

// A hand is not a staircase: what the pointer asks for arrives in jumps, the hand gets there smoothly.
export function moveHand(hand, target, dt, time = 0.018) {
  const pull = (target - hand.at) / (time * time) - (2 * hand.speed) / time;
  hand.speed += pull * dt;
  hand.at += hand.speed * dt;
}

export function makeRock(d) {
  const travel = freeTravel(d.movement, d.force);
  const movement = addFlex(d.movement, d.force, d.flex);
  const firm = Math.max(lookUp(movement, d.force, movement[movement.length - 1]).slope, 1);
  return {
    movement, force: d.force, bearing: d.movement, travel, mass: d.mass, hand: d.hand, drag: d.drag,
    handDamping: 1.4 * Math.sqrt(d.hand * d.mass),
    ringing: 0.9 * Math.sqrt(firm * d.mass),
    knockSpeed: d.knock_speed, loudness: d.loudness, muffle: d.muffle,
    knocks: travel.span > 0 && travel.span >= d.felt_from,
    reach: Math.max(Math.abs(travel.low), Math.abs(travel.high)) + d.effort / d.hand,
  };
}

export const restRock = (rock) => {
  const at = clamp(0, rock.travel.low, rock.travel.high);
  return { x: at, v: 0, hand: { at, speed: 0 }, push: 0 };
};

// One step of rim on bearing and hand. Returns the loudness of a knock (0 = none) that fell in it.
export function stepRock(rock, s, target, dt = STEP) {
  moveHand(s.hand, clamp(target, -rock.reach, rock.reach), dt);
  const { value: back, slope } = lookUp(rock.movement, rock.force, s.x);
  const touching = s.x < rock.travel.low || s.x > rock.travel.high || !rock.travel.span;
  const damping = rock.drag + rock.handDamping + (touching ? rock.ringing : 0);
  s.push = rock.hand * (s.hand.at - s.x);
  const net = s.push + rock.handDamping * s.hand.speed - back;
  const before = s.x;
  // Implicit in the stiff terms: a bearing of 10 N/µm must not ring because the step is finite.
  s.v = (s.v + (dt / rock.mass) * net) / (1 + (dt * damping + dt * dt * (rock.hand + slope)) / rock.mass);
  s.x += s.v * dt;
  return hearKnock(rock, s, before);
}

// A knock is the end of free travel met at speed.
function hearKnock(rock, s, before) {
  const { low, high } = rock.travel;
  const met = (before < high && s.x >= high) || (before > low && s.x <= low);
  return met && rock.knocks ? loudness(Math.abs(s.v), rock) : 0;
}

export function loudness(speed, { knockSpeed, loudness: scale, muffle }) {
  return speed < knockSpeed ? 0 : clamp(scale * (1 - 0.7 * muffle) * (0.15 + (speed - knockSpeed) / (8 * knockSpeed)), 0, 1);
}

// Dull: two short low notes, lower still through thick grease; all of it between 100 and 500 Hz.
export function knockNotes(level, muffle) {
  return [
    { hz: 190 - 60 * muffle, gain: level, decay: 0.07 },
    { hz: 410 - 150 * muffle, gain: 0.35 * level * (1 - muffle), decay: 0.03 },
  ];
}

// Something that turns against dry friction. Friction can stop it but never drive it.
export function stepTurning(s, { torque, friction, damping = 0, inertia }, dt = STEP) {
  const heavy = inertia + dt * damping;
  const free = (inertia * s.speed + dt * torque) / heavy;
  const most = (dt * Math.max(friction, 0)) / heavy;
  s.speed = Math.abs(free) <= most ? 0 : free - Math.sign(free) * most;
  s.at += s.speed * dt;
}

// The same stream of numbers from the same seed on every machine.
export function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

// One step of the wheel. The heavy spot hangs down at angle 0; `hand` is the speed of a hand on the tyre, or null.
export function stepSpin(wheel, s, hand, dt = STEP) {
  if (hand !== null) {
    s.speed += (hand - s.speed) * Math.min(1, dt / 0.03);
    s.at += s.speed * dt;
    return;
  }
  const drag = Math.max(lookUp(wheel.speed, wheel.torque, Math.abs(s.speed)).value, 0);
  stepTurning(s, { torque: -wheel.heavy * Math.sin(s.at), friction: drag, inertia: wheel.inertia }, dt);
}

// Fingers give softly and stiffen, so that what they lag behind by grows with the logarithm of the torque: up to `firm`
// nearly in step with it, and never to an end. `give` is how far they give for each e-fold beyond.
export const fingerTorque = (lag, { firm, give }) => Math.sign(lag) * firm * Math.expm1(Math.abs(lag) / give);
export const fingerLag = (torque, { firm, give }) => Math.sign(torque) * give * Math.log1p(Math.abs(torque) / firm);
