// Rock the wheel: at the rim, seen from behind with the hub cut open, or at the axle end in the fingers.

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
    this.axleIn = data.held;
    this.bench.find(".how").textContent = this.atRim
      ? "Take hold of the rim and push it from side to side: slowly first, then briskly."
      : "Take the axle end in your fingers and push it up and down: slowly first, then briskly.";
    this.bench.canvas.setAttribute("aria-orientation", this.atRim ? "horizontal" : "vertical");
    if (!fresh && this.s) return;
    this.s = restRock(this.rock);
    this.target = 0;
    this.goal = this.script = this.gesture = this.from = null;
    this.layout();
  }

  // px per metre of the picture, of movement drawn in it, and of the hand's own way.
  layout() {
    const { width = 0, height = 0 } = this.bench;
    this.centre = this.atRim ? { x: width / 2, y: height - 104 } : { x: width * 0.36, y: height * 0.44 };
    this.picture = (this.atRim ? width / 270 : width / 165) * 1000;
    this.drawn = this.picture * this.magnification;
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
    this.bench.report({ cycles: sides >> 1, knocks, brisk: speed > 2 * this.rock.knockSpeed });
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

  draw(pen, ink) {
    this.layout();
    const { s, rock } = this;
    const force = lookUp(rock.movement, rock.force, s.x).value;
    const inBearing = this.bench.data.flex > 0 ? s.x - force / this.bench.data.flex : s.x;
    const hand = Math.round((100 * s.hand.at) / rock.reach);
    const ways = this.atRim ? ["to the right", "to the left"] : ["up", "down"];
    this.bench.slider(hand, Math.abs(hand) < 8 ? "let go" : `pushed ${ways[hand > 0 ? 0 : 1]}`);
    if (this.atRim) drawRim(pen, ink, this, inBearing * this.drawn, s.x * this.drawn);
    else drawAxleEnd(pen, ink, this, s.x * this.drawn);
    scaleBar(pen, ink, 16, this.bench.height - 20, this.drawn, this.magnification);
  }

  effort() {
    return Math.max(-1, Math.min(1, this.s.push / this.bench.data.effort));
  }
}

// `tilt` is how far the rim leans with the hub, `moved` how far it goes in all, the wheel's own give included.
// Hub and rim are drawn to one scale; the spokes between are cut short, as the break in them says.
function drawRim(pen, ink, part, tilt, moved) {
  const { centre, picture } = part, mm = picture / 1000, rim = centre.y - 24 - 38 * mm;
  drawHeld(pen, ink, part, mm);
  line(pen, centre.x, 16, centre.x, 4, ink.soft, 1.5);
  tip(pen, centre.x, 22, TURN / 4, 12, ink.soft);
  words(pen, ink, "fixed mark", centre.x + 12, 11, { size: 13, align: "left", colour: ink.soft });
  pen.save();
  pen.translate(centre.x, centre.y);
  pen.rotate(Math.atan2(tilt, rim));
  const give = moved - tilt;
  drawSpokes(pen, ink, mm, rim, give);
  drawShell(pen, ink, mm, false);
  pen.translate(give, -rim);
  disc(pen, 0, -15 * mm, 20 * mm, ink.rubber, ink.text);
  disc(pen, 0, -15 * mm, 13 * mm, ink.paper, null);
  shape(pen, ink.steel, ink.text, (p) => p.roundRect(-11 * mm, -10 * mm, 22 * mm, 20 * mm, [2, 2, 8 * mm, 8 * mm]));
  pen.restore();
  drawAxle(pen, ink, centre, mm);
  const x = centre.x + moved, y = centre.y - rim - 3 * mm, push = part.effort();
  finger(pen, ink, x + 13 * mm, y, 0, 20, 62);
  finger(pen, ink, x - 13 * mm, y, Math.PI, 20, 62);
  const back = push > 0 ? -1 : 1, start = x + back * (13 * mm + 68);
  if (Math.abs(push) > 0.04) arrow(pen, start + back * (12 + 36 * Math.abs(push)), y, start, y, ink.accent, 4);
}

// What holds the axle: the blades of the frame, or spacers on the locknuts with the clamp's ends outside them.
function drawHeld(pen, ink, { centre, axleIn }, mm) {
  const { x, y } = centre;
  for (const side of axleIn === "nothing" ? [] : [-1, 1]) {
    if (axleIn === "frame") {
      box(pen, x + side * 66 * mm - 7 * mm, -20, 14 * mm, y + 32 * mm, 7 * mm, ink.faint, ink.line);
    } else {
      box(pen, x + side * 68 * mm - 9 * mm, y - 11 * mm, 18 * mm, 22 * mm, 2, ink.faint, ink.line);
      box(pen, x + side * 81 * mm - 4 * mm, y - 8 * mm, 8 * mm, 16 * mm, 3, ink.steel, ink.text);
    }
  }
  if (axleIn === "clamp") words(pen, ink, "clamped on spacers", x, y + 48, { size: 13, colour: ink.soft });
}

function drawSpokes(pen, ink, mm, rim, give) {
  for (const side of [-1, 1]) {
    shape(pen, null, ink.line, (p) => {
      p.moveTo(side * 29 * mm, -24 * mm);
      p.quadraticCurveTo(side * 16 * mm, -rim * 0.55, give + side * 3 * mm, -rim + 8 * mm);
    }, 2);
  }
  const wide = 26 * mm, up = -rim * 0.52;
  shape(pen, ink.paper, null, (p) => p.rect(-wide, up - 4, 2 * wide, 8));
  for (const edge of [-4, 4]) {
    shape(pen, null, ink.line, (p) => {
      p.moveTo(-wide, up + edge);
      for (let i = 1; i <= 8; i += 1) p.lineTo(-wide + (i * wide) / 4, up + edge + (i % 2 ? -3 : 0));
    }, 1);
  }
}

function drawAxleEnd(pen, ink, part, moved) {
  const { centre, picture } = part, mm = picture / 1000, arm = 65 * mm;
  pen.save();
  pen.translate(centre.x, centre.y);
  for (const side of [-1, 1]) {
    for (const up of [-1, 1]) {
      line(pen, side * 29 * mm, up * 24 * mm, side * 27 * mm, up * 48 * mm, ink.line, 2);
    }
  }
  drawShell(pen, ink, mm, true);
  pen.restore();
  pen.save();
  pen.translate(centre.x, centre.y);
  pen.rotate(-Math.atan2(moved, arm));
  drawAxle(pen, ink, { x: 0, y: 0 }, mm);
  pen.restore();
  const x = centre.x + arm + 4 * mm, y = centre.y - moved, push = part.effort();
  line(pen, x + 30, centre.y, x + 44, centre.y, ink.soft, 1.5);
  tip(pen, x + 18, centre.y, Math.PI, 12, ink.soft);
  words(pen, ink, "fixed", x + 48, centre.y - 8, { size: 13, align: "left", colour: ink.soft });
  words(pen, ink, "mark", x + 48, centre.y + 8, { size: 13, align: "left", colour: ink.soft });
  finger(pen, ink, x, y - 5 * mm, -TURN / 4, 22, 62);
  finger(pen, ink, x, y + 5 * mm, TURN / 4, 22, 62);
  const back = push > 0 ? 1 : -1, start = y + back * (5 * mm + 68);
  if (Math.abs(push) > 0.04) arrow(pen, x, start + back * (12 + 40 * Math.abs(push)), x, start, ink.accent, 4);
}

export default (component) => seat(component, (bench) => new Rock(bench));
