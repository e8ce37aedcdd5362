// The rule under the close-up, of the same enlargement as the gap: what was given, what was taken, what is left.

const FINE = 3; // px: marks of a hundredth closer than this are drawn for every second one

// Four bars, each from one end play to another, with its words. Sums of what is printed must come out, so each amount
// is the difference of two printed numbers.
function barsOf({ plays, free, locked, clamped, push, force }, { took }) {
  const { contact } = plays, print = (value) => Number(value.toFixed(3));
  const between = (from, to) => Math.abs(print(from) - print(to)).toFixed(3);
  return [
    { from: 0, to: contact, words: `${took.contact} ${between(0, contact)}`, on: contact < -0.0005 },
    { from: contact, to: free, words: `${took.backed_off} ${free < contact ? "in" : "out"} ${between(free, contact)}`, on: Math.abs(free - contact) > 0.0005 },
    { from: free, to: locked, words: `${took.locked} ${between(free, locked)}`, on: push > 0.01 },
    { from: locked, to: clamped, words: `${took.clamped} ${between(locked, clamped)}`, on: force > 0.01 && took.clamped },
  ];
}

export class Rule {
  constructor(svg, data) {
    this.data = data;
    this.root = draw(svg, "g", { class: "rule" });
    this.drawHatches(draw(this.root, "defs"), data.paints);
    const shape = (name, kind = "path") => draw(this.root, kind, { class: name });
    this.plumb = shape("plumb");
    this.plate = shape("plate", "rect");
    this.forbidden = shape("forbidden", "rect");
    this.good = shape("good-zone", "rect");
    this.marks = [shape("marks"), shape("marks strong")];
    this.figures = draw(this.root, "g", { class: "figures" });
    this.assumed = shape("assumed", "rect");
    this.pointers = [shape("pointer hollow"), shape("pointer")];
    // Squeeze, nut and clamp take; turning gives.
    this.bars = [0, 1, 2, 3].map((i) => draw(this.root, "rect", { class: i === 1 ? "bar" : "bar taken" }));
    const words = (name) => draw(this.root, "text", { class: name });
    this.barWords = [0, 1, 2, 3].map(() => words("halo"));
    [this.looser, this.tighter, this.goodWords, this.couldBe] = ["petrol", "forbid", "goodly", "halo assumed-words"].map(words);
    this.pointerWords = [words("halo muted"), words("halo strong")];
  }

  // As in the drawing, and two that only the rule has: what was taken, and what is assumed.
  drawHatches(defs, { good, forbidden }) {
    const taken = { angle: 45, step: 6, width: 1, colour: "taken" }, assumed = { angle: -45, step: 5, width: 0.6, colour: "petrol" };
    const all = { good: good.hatch, forbidden: forbidden.hatch, taken, assumed };
    for (const [name, hatch] of Object.entries(all)) drawHatch(defs, `rule-${name}`, hatch, "paper");
  }

  // Everything that does not move. `base` is the lower edge of the parts [px], `at` turns mm drawn into px.
  place({ base, scale, x, width, size, narrow, hide }) {
    const { numbers, rule, factor, out } = this.data, [tight, loose] = numbers.good;
    Object.assign(this, { base, width, size, narrow, hide, across: out * factor * scale, zero: x + rule.zero * scale });
    this.rowHeight = size + 4;
    this.rows = hide.has("numbers") ? 0 : narrow ? 2 : 4;
    this.pointerY = base + this.rows * this.rowHeight + 4 + size + 4;
    this.high = 2 * size + (narrow ? 8 : 14);
    const span = (from, to) => ({ x: Math.min(this.x(from), this.x(to)), width: Math.abs(this.x(from) - this.x(to)) });
    this.span = span;
    const y = this.pointerY;
    set(this.plate, { ...span(rule.from, rule.to), y, height: this.high });
    const hidden = hide.has("good");
    for (const node of [this.forbidden, this.good, this.goodWords]) node.style.display = hidden ? "none" : "";
    set(this.forbidden, { ...span(Math.max(tight, rule.to), rule.to), y, height: 0.42 * this.high });
    const [low, high] = [Math.max(tight, rule.to), Math.min(loose, rule.from)];
    set(this.good, { ...span(low, high), y, height: this.high + size });
    this.placeMarks(rule, y);
    this.placeEnds(rule, y, (low + high) / 2);
  }

  // Words stay inside the picture, however far out they belong.
  write(node, text, x, y, anchor) {
    put(node, text);
    set(node, { "text-anchor": anchor, "font-size": `${this.size}px` });
    // moved, not set anew: letters that stay as they are need not be laid out
    const inside = keptInside(x, node, this.size, this.width);
    set(node, { transform: `translate(${inside.toFixed(1)} ${y.toFixed(1)})` });
  }

  x(play) {
    return this.zero + this.across * play;
  }

  placeMarks({ from, to }, y) {
    const every = Math.abs(this.across) * 0.01 < FINE ? 2 : 1, lines = ["", ""];
    this.figures.replaceChildren();
    for (let i = Math.ceil(to * 100 - 1e-6); i <= from * 100 + 1e-6; i += 1) {
      if (i % every) continue;
      const large = i % 10 === 0, middle = i % 5 === 0, x = this.x(i / 100);
      lines[large ? 1 : 0] += `M${x} ${y}v${this.high * (large ? 0.48 : middle ? 0.38 : 0.24)}`;
      const room = Math.abs(this.across) * 0.1 > 2.6 * this.size || i % 20 === 0;
      const inside = i / 100 < from - 0.02 && i / 100 > to + 0.02;
      if (large && room && inside) {
        draw(this.figures, "text", { x, y: y + this.high - 6, "text-anchor": "middle", class: "halo-plate", "font-size": `${this.size}px` }, i ? Math.abs(i / 100).toFixed(1) : "0");
      }
    }
    this.marks.forEach((node, i) => set(node, { d: lines[i] }));
  }

  placeEnds({ from, to }, y, middle) {
    const way = Math.sign(this.across), beside = 8 * way, centre = y + 0.5 * this.high + 0.35 * this.size;
    const outer = way < 0 ? "end" : "start", inner = way < 0 ? "start" : "end";
    this.write(this.looser, "loose", this.x(from) + beside, centre, outer);
    this.write(this.tighter, this.narrow ? "tight" : "too tight", this.x(to) - beside, centre, inner);
    const words = this.narrow ? "✓ good" : "✓ race should stand here";
    this.write(this.goodWords, words, this.x(middle), y + this.high + 2 * this.size + 2, "middle");
    this.outer = outer;
    this.inner = inner;
  }

  show(place) {
    this.showBars(place);
    this.showPointers(place);
  }

  // On a phone two bars share a row, the words of one on either side.
  barRow(i) {
    return this.base + 4 + Math.floor(i / (this.narrow ? 2 : 1)) * this.rowHeight;
  }

  showBars(place) {
    barsOf(place, this.data.numbers).forEach(({ from, to, on }, i) => {
      const bar = this.bars[i], shown = this.rows && on ? "" : "none";
      bar.style.display = this.barWords[i].style.display = shown;
      if (!shown) set(bar, { ...this.span(from, to), y: this.barRow(i) + 0.25 * this.rowHeight, height: 0.55 * this.rowHeight });
    });
  }

  tell(place) {
    const way = Math.sign(this.across);
    barsOf(place, this.data.numbers).forEach(({ from, to, words, on }, i) => {
      if (!this.rows || !on) return;
      const inner = this.narrow && i % 3 === 0, said = this.narrow ? words.replace(/^(fingers|you) /, "") : words;
      const x = this.x(inner ? Math.min(from, to) : Math.max(from, to)) + (inner ? -8 : 8) * way;
      this.write(this.barWords[i], said, x, this.barRow(i) + 0.5 * this.rowHeight + 0.38 * this.size, inner ? this.inner : this.outer);
    });
  }

  // Before the clamp is closed what counts is where the cone will stand: that pointer is the black one.
  showPointers({ now, plays, stage, push, force }) {
    const ahead = !["clamped", "ridden"].includes(stage) && !this.hide.has("numbers");
    const forecast = ahead ? plays.clamped : now, { from, to } = this.data.rule;
    const within = (play) => Math.min(Math.max(play, to), from);
    const at = [this.x(within(now)), this.x(within(forecast))], half = 0.55 * this.size, y = this.pointerY;
    const tip = (x) => `M${x} ${y}L${x - half} ${y - 1.7 * half}L${x + half} ${y - 1.7 * half}Z`;
    set(this.pointers[0], { d: ahead ? tip(at[0]) : "" });
    set(this.pointers[1], { d: tip(at[1]) });
    set(this.plumb, { d: `M${at[0]} ${this.base}V${y}` });
    this.showPointerWords(at, ahead);
    this.showAssumed(forecast, ahead || push > 0.99 && force > 0.99, y);
  }

  showPointerWords([now, clamped], ahead) {
    const way = Math.sign(this.across), y = this.pointerY - 4, nowIsOuter = (now - clamped) * way >= 0;
    const write = (node, x, outer, text) =>
      this.write(node, text, x + (outer ? 1 : -1) * way * this.size, y, outer ? this.outer : this.inner);
    write(this.pointerWords[0], now, nowIsOuter, "now");
    write(this.pointerWords[1], clamped, !nowIsOuter, ahead ? "once clamped" : "");
  }

  showAssumed(play, shown, y) {
    const [low, high] = this.data.numbers.assumed.clamped, hidden = !shown || high - low < 1e-6;
    this.assumed.style.display = this.couldBe.style.display = hidden ? "none" : "";
    if (hidden) return;
    const { from, to } = this.data.rule, ends = [play + low, play + high].map((end) => Math.min(Math.max(end, to), from));
    set(this.assumed, { ...this.span(...ends), y: y + this.high, height: 0.7 * this.size });
    const x = this.x(Math.max(...ends)) + 8 * Math.sign(this.across);
    this.write(this.couldBe, "could be anywhere here", x, y + this.high + 0.75 * this.size, this.outer);
  }

  // Height from the lower edge of the parts to the foot of the words [px].
  static height({ size, narrow, hide }) {
    const rows = hide.has("numbers") ? 0 : narrow ? 2 : 4;
    return rows * (size + 4) + 8 + size + (2 * size + (narrow ? 8 : 14)) + 2 * size + 8;
  }
}
