// The rule under the close-up, of the same enlargement as the gap: what was given, what was taken, what is left.
// Its scale comes as a sheet, across in mm of the drawing and down in heights of letters; here it is only put in place.

const HEAD = 0.94; // of a pointer, in heights of letters
const BESIDE_HEAD = 0.85; // of its words from its middle, the same
const SIGNS_OF = ["▽", "▼"]; // of the pointers, where both words stand on one side
const BAND = 0.62; // of what is assumed, the same

// Four bars, each from one end play to another, with its words. Sums of what is printed must come out, so each amount
// is the difference of two printed numbers.
function barsOf({ plays, free, locked, clamped, push, force }, { took }, digits) {
  const { contact } = plays, print = (value) => Number(value.toFixed(digits));
  const bar = (from, to, words, on) => {
    const amount = Math.abs(print(from) - print(to));
    return { from, to, words: amount ? `${words} ${amount.toFixed(digits)}` : `${words.replace(/ (gave|took)$/, "")} took nothing`, on: on && words };
  };
  return [
    bar(0, contact, took.contact, print(contact) < 0),
    bar(contact, free, `${took.backed_off} ${free < contact ? "in" : "out"}`, print(free) !== print(contact)),
    bar(free, locked, took.locked ?? "", push > 0.01),
    bar(locked, clamped, took.clamped ?? "", force > 0.01),
  ];
}

export class Rule {
  constructor(svg, data) {
    Object.assign(this, { data, digits: 3, spans: [] });
    this.root = draw(svg, "g", { class: "rule" });
    this.plumb = draw(this.root, "path", { class: "plumb" });
    this.sheet = new Sheet(this.root, data.sheets.rule, data.paints);
    this.sheet.root.classList.add("stretched");
    const block = (paint, kind) => this.sheet.buildPart(this.sheet.root, { name: kind, d: "", paint });
    this.assumed = block("assumed", "assumed");
    this.ends = draw(this.root, "path", { class: "ends" }); // a narrow one is no more than these
    // Squeeze, nut and clamp take; turning gives.
    this.bars = ["took", "given", "took", "took"].map((paint) => block(paint, "bar"));
    const words = (name) => draw(this.root, "text", { class: name });
    this.pointers = ["pointer hollow", "pointer"].map((name) => draw(this.root, "path", { class: name }));
    this.barWords = this.bars.map(() => words("halo"));
    this.pointerWords = [words("halo muted"), words("halo strong")];
    this.assumedWords = words("halo");
  }

  // Everything that does not move. `base` is the lower edge of the parts [px], `scale` turns mm drawn into px.
  place({ base, scale, x, width, size, narrow, hide }) {
    const { rule, factor, out, numbers } = this.data;
    Object.assign(this, { base, scale, width, size, narrow, hide, left: x, way: out, zero: rule.zero, across: out * factor });
    this.rows = Rule.rows(hide);
    this.top = base + (this.rows * rule.row + rule.pointer) * size;
    this.sheet.place({ scale, tall: size, x, y: this.top, size, width, narrow });
    this.sheet.hideGroup("good range", hide.has("good"));
    this.thinOut(scale / size);
    this.assumedSaid = narrow ? numbers.assumed_words.replace("the race stands", "race") : numbers.assumed_words;
  }

  // Marks and figures that would stand too close are left out; `mm` drawn are as wide as letters are high.
  thinOut(mm) {
    const { rule, factor } = this.data, room = 0.1 * factor * mm / rule.figures;
    const every = [1, 2, 5, 10].find((step) => step * room >= 1) ?? 10;
    for (const step of [1, 2, 5, 10]) this.sheet.hideGroup(`figures ${step}`, step % every !== 0);
    for (const step of [1, 5, 10]) this.sheet.hideGroup(`marks ${step}`, 0.01 * step * factor * mm < rule.fine);
  }

  // Where an end play stands: on the sheet [mm] and in the picture [px].
  mm(play) {
    return this.zero + this.across * play;
  }

  x(play) {
    return this.left + this.scale * this.mm(play);
  }

  setBlock(node, from, to, y, high) {
    const [a, b] = [this.mm(from), this.mm(to)], least = 1 / this.scale, far = Math.abs(b - a) < least ? a + least : b;
    set(node, { d: `M${a.toFixed(4)} ${y}L${far.toFixed(4)} ${y}L${far.toFixed(4)} ${y + high}L${a.toFixed(4)} ${y + high}Z` });
  }

  // Words beside a place, outboard or inboard of it, but inside the picture; gives the room they take.
  write(node, text, x, y, outboard, apart = 0.6) {
    put(node, text);
    const anchor = outboard === this.way < 0 ? "end" : "start";
    set(node, { "text-anchor": anchor, "font-size": `${this.size}px` });
    const beside = x + (outboard ? 1 : -1) * this.way * apart * this.size, [from, to] = spanInside(beside, node, this.size, this.width);
    // moved, not set anew: letters that stay as they are need not be laid out
    set(node, { transform: `translate(${(anchor === "end" ? to : from).toFixed(1)} ${(y + 0.35 * this.size).toFixed(1)})` });
    return [from, to];
  }

  show(place) {
    this.showBars(place);
    this.showPlumb(this.x(this.within(place.now)));
    this.showPointers(place);
  }

  within(play) {
    const { from, to } = this.data.rule;
    return Math.min(Math.max(play, to), from);
  }

  showBars(place) {
    const { rule, numbers } = this.data, [above, high] = rule.bar;
    barsOf(place, numbers, this.digits).forEach(({ from, to, on }, i) => {
      this.bars[i].style.display = this.barWords[i].style.display = this.rows && on ? "" : "none";
      if (this.rows && on) this.setBlock(this.bars[i], from, to, (i - this.rows) * rule.row - rule.pointer + above, high);
    });
  }

  // The words of the bars, to so many digits, each outboard of its own.
  tell(place, digits) {
    const { rule: { bar, row }, numbers } = this.data, [above, high] = bar;
    this.digits = digits;
    this.spans = barsOf(place, numbers, digits).map(({ from, to, words, on }, i) => {
      if (!this.rows || !on) return null;
      const said = this.narrow ? words.replace(/^(fingers|you) /, "") : words;
      const y = this.base + (i * row + above + high / 2) * this.size;
      return this.write(this.barWords[i], said, this.x(Math.max(from, to)), y, true);
    });
    this.showBars(place);
    this.showPlumb(this.x(this.within(place.now)));
  }

  // The line from the race to the rule goes behind the words that lie in its way.
  showPlumb(now) {
    const row = this.data.rule.row * this.size;
    let line = "", y = this.base;
    this.spans.forEach((span, i) => {
      if (!span || now < span[0] - 3 || now > span[1] + 3) return;
      const top = this.base + i * row;
      if (top > y) line += `M${now} ${y}V${top}`;
      y = top + row;
    });
    set(this.plumb, { d: `${line}M${now} ${y}V${this.top}` });
  }

  // Before the clamp is closed what counts is where the cone will stand: that pointer is the black one.
  showPointers({ now, plays, stage, push, force }) {
    const ahead = !["clamped", "ridden"].includes(stage) && !this.hide.has("numbers");
    const forecast = ahead ? plays.clamped : now, at = [now, forecast].map((play) => this.x(this.within(play)));
    set(this.pointers[0], { d: ahead ? this.tip(now) : "" });
    set(this.pointers[1], { d: this.tip(forecast) });
    this.showPointerWords(at, [`now${this.beyond(now)}`, ahead ? `once clamped${this.beyond(forecast)}` : ""]);
    this.showAssumed(forecast, ahead || (push > 0.99 && force > 0.99));
  }

  // A head down on the rule; of what is past its end, one that points on.
  tip(play) {
    const { top, way } = this, head = HEAD * this.size, x = this.x(this.within(play)), on = this.past(play) * way;
    if (!on) return `M${x} ${top}L${x - 0.55 * head} ${top - head}L${x + 0.55 * head} ${top - head}Z`;
    return `M${x} ${top - 0.55 * head}L${x - on * head} ${top}L${x - on * head} ${top - 1.1 * head}Z`;
  }

  // 1 past the loose end of the rule, -1 past the tight one.
  past(play) {
    const { from, to } = this.data.rule;
    return Number(play > from) - Number(play < to);
  }

  beyond(play) {
    return this.past(play) ? ` ${playWords(play, this.digits)}` : "";
  }

  // A word on either side of the two; where there is no room inboard, both outboard in the order of the pointers, each
  // with its sign.
  showPointerWords([now, clamped], names) {
    const y = this.top - 0.7 * this.size, nowIsOuter = (now - clamped) * this.way >= 0;
    const [outer, inner] = nowIsOuter ? [0, 1] : [1, 0], at = [now, clamped];
    this.write(this.pointerWords[outer], names[outer], at[outer], y, true, BESIDE_HEAD);
    const [from, to] = this.write(this.pointerWords[inner], names[inner], at[inner], y, false, BESIDE_HEAD);
    if (!names[inner] || (this.way < 0 ? from > at[inner] + 0.4 * this.size : to < at[inner] - 0.4 * this.size)) return;
    put(this.pointerWords[inner], "");
    const signed = names.map((name, i) => `${SIGNS_OF[i]} ${name}`);
    const both = this.way < 0 ? [signed[outer], signed[inner]] : [signed[inner], signed[outer]];
    this.write(this.pointerWords[outer], both.join(", "), at[outer], y, true, BESIDE_HEAD);
  }

  showAssumed(play, shown) {
    const { rule, numbers } = this.data, [low, high] = numbers.assumed, hidden = !shown || high - low < 1e-6;
    for (const { style } of [this.assumed, this.ends, this.assumedWords]) style.display = hidden ? "none" : "";
    if (hidden) return;
    const [from, to] = [play + low, play + high].map((end) => this.within(end));
    const row = rule.plate + 0.25, y = this.top + row * this.size;
    this.setBlock(this.assumed, from, to, row, BAND);
    set(this.ends, { d: [from, to].map((end) => `M${this.x(end)} ${y}v${BAND * this.size}`).join("") });
    this.write(this.assumedWords, this.assumedSaid, this.x(to), y + (BAND / 2) * this.size, true);
  }

  static rows(hide) {
    return hide.has("numbers") ? 0 : 4;
  }

  // Height from the lower edge of the parts to the foot of the words [px].
  static height({ row, pointer, plate, foot }, { size, hide }) {
    return (Rule.rows(hide) * row + pointer + plate + foot) * size;
  }
}
