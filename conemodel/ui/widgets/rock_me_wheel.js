// The wheel in the hand: rocked from stop to stop while there is play, twirled once there is none.

const KEY_MS = 90; // from one stop to the other by a key
const KEY_SPIN = 1.1; // radians of the ball for a key
const SPIN_PX = 34; // of a finger's way for a radian of the ball
const SLOWS_MS = 1400; // in which a twirled wheel loses most of its speed
const TWIRLED = 5; // radians of the ball after which it was felt
const HARD = 1.2; // px in a ms of a finger that knocks as loud as can be

export class RockedWheel {
  constructor({ hub, hands, onKnock, onTwirl }) {
    Object.assign(this, { hub, hands, onKnock, onTwirl });
    Object.assign(hands.at, { rock: -0.6, spin: 0 });
    this.node = hub.sheet.groups.get("wheel").node;
    this.spun = this.speed = 0;
    this.tell = makeSlider(this.node, "The rim", -1, 1);
    onDrag(this.node, (event) => this.grab(event));
    onKeys(this.node, (event) => this.key(event));
  }

  get loose() {
    return this.hands.at.lever < 1;
  }

  // From the middle to a stop, as far as the rim is seen to move [px].
  get way() {
    const { factor, rim } = this.hub.data;
    return (factor * rim * this.hub.sheet.scale) / 2;
  }

  grab(event) {
    this.stop();
    let before = event, middle = this.hub.sheet.px([0, 0])[1] + this.hub.svg.getBoundingClientRect().top;
    const up = event.clientY < middle ? 1 : -1;
    this.still = 0;
    return {
      move: (moved) => {
        const [dx, dy] = [moved.clientX - before.clientX, moved.clientY - before.clientY];
        const long = Math.max(moved.timeStamp - before.timeStamp, 1);
        before = moved;
        if (this.loose) this.rock((this.hub.data.out * up * dx) / this.way, Math.abs(dx) / long);
        else this.spin((Math.abs(dx) > Math.abs(dy) ? dx : dy) / SPIN_PX, long);
      },
      up: () => this.coast(),
    };
  }

  // Taken on by the finger from wherever it stands; a stop is met once, until it is left.
  rock(by, speed) {
    const { at } = this.hands, before = at.rock, rock = Math.min(Math.max(before + by, -1), 1);
    this.hands.change({ rock });
    if (rock !== before && Math.abs(rock) === 1) this.onKnock(rock, 0.3 + 0.7 * Math.min(speed / HARD, 1));
  }

  spin(by, long) {
    this.speed = 0.6 * this.speed + (0.4 * by) / Math.max(long, 4);
    this.hands.change({ spin: this.hands.at.spin + by });
    this.spun += Math.abs(by);
    if (this.spun > TWIRLED) this.onTwirl();
  }

  // Let go it runs on: nothing drags.
  coast() {
    if (this.loose || this.hands.calm.matches || Math.abs(this.speed) < 1e-4) return;
    let before = performance.now();
    const step = (now) => {
      const long = Math.max(now - before, 0);
      if (this.loose) return;
      before = now;
      this.hands.change({ spin: this.hands.at.spin + this.speed * long });
      this.speed *= Math.exp((-2 * long) / SLOWS_MS);
      this.frame = Math.abs(this.speed) > 2e-4 ? requestAnimationFrame(step) : 0;
    };
    this.frame = requestAnimationFrame(step);
  }

  // With the clamp open nothing of a twirl counts.
  forget() {
    this.hands.at.spin = this.spun = 0;
  }

  stop() {
    cancelAnimationFrame(this.frame);
    this.frame = this.speed = 0;
  }

  key(event) {
    const side = { ArrowLeft: -1, ArrowRight: 1, ArrowUp: -1, ArrowDown: 1 }[event.key];
    if (!side) return false;
    if (this.loose) this.push(side * this.hub.data.out);
    else this.spinBy(side);
    return true;
  }

  spinBy(side) {
    this.stop();
    this.spin(side * KEY_SPIN, 16);
    this.speed = 0.012 * side;
    this.coast();
  }

  push(to) {
    const { at, calm } = this.hands, from = at.rock, start = performance.now();
    if (from === to) return;
    this.stop();
    const step = (now) => {
      const part = calm.matches ? 1 : Math.min(Math.max((now - start) / KEY_MS, 0), 1);
      this.rock(from + (to - from) * part - at.rock, 0.6 * HARD);
      this.frame = part < 1 ? requestAnimationFrame(step) : 0;
    };
    step(start);
  }

  // Where it stands, for who does not see it.
  show() {
    const { rock, spin } = this.hands.at, side = Math.trunc(rock) * this.hub.data.out;
    const loose = { [-1]: "at the left stop", 0: "between its stops", 1: "at the right stop" }[side];
    this.tell(this.loose ? side : 0, this.loose ? loose : spin ? "turned, smooth" : "no play from side to side");
  }
}
