// Rock the wheel: at the rim, seen from behind with the hub cut open, or at the axle end in the fingers.

const LOWER = 56; // mm seen below the axle
const BESIDE = 14; // mm beside the hub, for the hands; at true scale a third of a millimetre is not to be seen

class Rock {
  constructor(bench) {
    this.bench = bench;
    this.target = 0;
    this.goal = null;
    this.script = null;
    bench.onDrag({
      down: (at) => this.grab(at),
      move: (at) => this.pull(at),
      up: () => this.letGo(),
    });
    bench.onKeys((event) => this.key(event), (event) => this.keyUp(event));
    bench.onButton("slow", () => this.play(false));
    bench.onButton("brisk", () => this.play(true));
  }

  take(data, fresh) {
    this.atRim = data.grip === "rim";
    this.rock = makeRock(data);
    this.magnification = data.magnification;
    this.bench.find(".how").textContent = this.atRim
      ? "Take hold of the rim and push it from side to side: slowly first, then briskly."
      : "Take the axle end in your fingers and push it up and down: slowly first, then briskly.";
    this.bench.canvas.setAttribute("aria-orientation", this.atRim ? "horizontal" : "vertical");
    if (!fresh && this.s) return;
    this.s = restRock(this.rock);
    this.target = 0;
    this.goal = this.script = this.gesture = this.from = null;
  }

  // px per metre of movement drawn in the picture, and of the hand's own way.
  layout() {
    const { width, height, hub } = this.bench, [left, top, wide, high] = hub.drawing.sheet.view;
    const [above, seen] = hub.sheet.groups.has("rim top") ? [24, high / 2 + LOWER] : [20, high];
    hub.place(width, height, [left - BESIDE, top, wide + 2 * BESIDE, seen], [6, above, width - 12, height - 76]);
    this.drawn = hub.scale * 1000 * this.magnification;
    this.way = Math.max(this.drawn, this.atRim ? 14000 : 40000);
  }

  begin() {
    if (this.gesture) return;
    this.gesture = { knocks: 0, sides: 0, side: 0, speed: 0, quiet: 0 };
    this.bench.wake();
  }

  grab(at) {
    this.script = this.goal = null;
    this.layout();
    this.from = { at, target: this.target };
    this.begin();
  }

  pull(at) {
    const way = this.atRim ? at.x - this.from.at.x : this.from.at.y - at.y;
    this.target = this.from.target + way / this.way;
  }

  letGo() {
    this.from = null;
    this.target = 0;
  }

  key(event) {
    const side = { ArrowLeft: -1, ArrowRight: 1, ArrowDown: -1, ArrowUp: 1 }[event.key];
    if (!side) return false;
    const { reach, knockSpeed } = this.rock;
    this.script = null;
    this.goal = { at: 0.8 * side * reach, speed: knockSpeed * (event.shiftKey ? 0.5 : 6), key: event.key };
    this.begin();
    return true;
  }

  keyUp(event) {
    if (!this.goal || (event.key !== this.goal.key && event.key !== "blur")) return false;
    this.goal = { at: 0, speed: this.goal.speed };
    return true;
  }

  // The button's hand: two times to and fro, gently or briskly, for those who cannot drag.
  play(brisk) {
    const { travel, reach, knockSpeed } = this.rock;
    const edge = Math.max(Math.abs(travel.low), Math.abs(travel.high));
    const wide = edge + 0.4 * (reach - edge);
    const rate = brisk ? Math.min(16, (6 * knockSpeed) / wide) : (0.5 * knockSpeed) / wide;
    this.goal = this.from = null;
    this.script = { wide, rate, time: 0, end: (2 * TURN) / rate };
    this.begin();
    this.bench.say("Still rocking: wait.");
  }

  steer() {
    if (this.script) {
      this.script.time += STEP;
      this.target = this.script.wide * Math.sin(this.script.rate * this.script.time);
      if (this.script.time >= this.script.end) this.script = null;
    } else if (this.goal) {
      const most = this.goal.speed * STEP, left = this.goal.at - this.target;
      this.target += Math.min(most, Math.max(-most, left));
      if (this.target === 0 && this.goal.at === 0) this.goal = null;
    }
  }

  step() {
    this.steer();
    const { s, rock, gesture } = this;
    const knock = stepRock(rock, s, this.target);
    if (!gesture) return;
    if (knock) {
      gesture.knocks += 1;
      this.bench.sound.knock(knock, rock.muffle);
      this.bench.buzz(Math.round(6 + 20 * knock));
    }
    gesture.speed = Math.max(gesture.speed, Math.abs(s.hand.speed));
    const side = Math.abs(s.push) > 0.1 * this.bench.data.effort ? Math.sign(s.push) : 0;
    if (side && side !== gesture.side) {
      gesture.sides += 1;
      gesture.side = side;
    }
    gesture.quiet = this.held() || !this.still() ? 0 : gesture.quiet + STEP;
    if (gesture.quiet > 0.4) this.finish();
  }

  finish() {
    const { knocks, sides, speed } = this.gesture;
    this.gesture = null;
    const { data } = this.bench;
    if (sides > 1) this.bench.say(knocks ? data.felt.quick : data.felt.slow);
    else this.bench.say("Push it both ways, until it resists.");
    // Where there is play to knock, only a knock says that the hand was quick enough.
    const brisk = this.rock.knocks ? knocks > 0 : speed > 2 * this.rock.knockSpeed;
    this.bench.report({ cycles: sides >> 1, knocks, brisk });
  }

  held() {
    return Boolean(this.from || this.script || this.goal);
  }

  still() {
    return Math.abs(this.s.v) < 2e-4 && Math.abs(this.s.hand.speed) < 2e-4;
  }

  busy() {
    return Boolean(this.gesture);
  }

  draw(pen, look) {
    this.layout();
    const { s, rock } = this, { data, hub } = this.bench, mm = 1000 * this.magnification;
    const force = lookUp(rock.movement, rock.force, s.x).value;
    const inBearing = data.flex > 0 ? s.x - force / data.flex : s.x;
    const hand = Math.round((100 * s.hand.at) / rock.reach);
    const ways = this.atRim ? ["to the right", "to the left"] : ["up", "down"];
    this.bench.slider(hand, Math.abs(hand) < 8 ? "let go" : `pushed ${ways[hand > 0 ? 0 : 1]}`);
    hub.move(this.atRim ? { sway: inBearing * mm, give: (s.x - inBearing) * mm } : { tip: s.x * mm });
    hub.sheet.hideGroup("rim bottom", true);
    if (!this.bench.live) return;
    if (this.atRim) drawRimHeld(pen, look, this, s.x * this.drawn);
    else drawAxleHeld(pen, look, this, s.x * this.drawn);
    scaleBar(pen, look, 16, this.bench.height - 20, this.drawn, this.magnification);
  }

  effort() {
    return Math.max(-1, Math.min(1, this.s.push / this.bench.data.effort));
  }
}

// A hand on either side of the tyre, which has `moved`, under a mark that stays.
function drawRimHeld(pen, look, part, moved) {
  const { hub } = part.bench, tyre = hub.boxOf("rim top", "tyre"), half = tyre.r * hub.scale;
  const [middle, y] = hub.px([tyre.x, tyre.y]), roof = hub.px([0, tyre.top])[1], x = middle + moved;
  line(pen, middle, roof - 16, middle, roof - 24, look.muted, 1.5);
  tip(pen, middle, roof - 5, TURN / 4, 12, look.muted);
  words(pen, look, "fixed mark", middle + 12, roof - 17, { size: 13, align: "left", colour: look.muted });
  finger(pen, look, x + half, y, 0, 20, 62);
  finger(pen, look, x - half, y, Math.PI, 20, 62);
  const push = part.effort(), back = push > 0 ? -1 : 1, start = x + back * (half + 66);
  if (Math.abs(push) > 0.04) arrow(pen, start + back * (12 + 36 * Math.abs(push)), y, start, y, look.petrol, 4);
}

// Finger and thumb on the axle's end, which has `moved` up, beside a mark that stays.
function drawAxleHeld(pen, look, part, moved) {
  const { hub } = part.bench, { hold: [at, thick], out } = hub.drawing, half = thick * hub.scale;
  const [x, middle] = hub.px([at, 0]), y = middle - moved, align = out < 0 ? "right" : "left";
  line(pen, x + out * 26, middle, x + out * 38, middle, look.muted, 1.5);
  tip(pen, x + out * 16, middle, out < 0 ? 0 : Math.PI, 12, look.muted);
  for (const [word, down] of [["fixed", -18], ["mark", 18]]) {
    words(pen, look, word, x + out * 16, middle + down, { size: 13, align, colour: look.muted });
  }
  finger(pen, look, x, y - half, -TURN / 4, 22, 62);
  finger(pen, look, x, y + half, TURN / 4, 22, 62);
  const push = part.effort(), back = push > 0 ? 1 : -1, start = y + back * (half + 66);
  if (Math.abs(push) > 0.04) arrow(pen, x, start + back * (12 + 40 * Math.abs(push)), x, start, look.petrol, 4);
}
