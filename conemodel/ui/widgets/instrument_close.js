// The close-up: one ball between cup and cone, the gap with its arrow, the play in figures, and the rule below.

const SIZES = {
  wide: { small: 13, middle: 15, large: 34 }, tablet: { small: 13, middle: 15, large: 34 },
  phone: { small: 13, middle: 13, large: 22 },
};

const ARROWS = 1.4; // mm drawn: a narrower gap has no room for its arrows
const WHOLE = ["ball", "inset"]; // must be seen whole, however low the picture is
const ON_PHONE = ["cup", "ball", "cone", "locknut", "a ball below"]; // names for which there is room
const WITH_CUP = 60; // px of a ball, beside a smaller one the cup has no room for its name
const ABOVE = ["cone", "dented cone", "locknut"]; // of these what stands on its part, which a small picture draws too near
const FORCE = "clamp force"; // the group of its arrow, and its name among what was not measured
const NAMED = 2; // of what was not measured, what matters most

export class CloseUp {
  constructor(host, data) {
    this.data = data;
    this.svg = draw(host, "svg", { role: "img" });
    this.window = draw(draw(draw(this.svg, "defs"), "clipPath", { id: "instrument-close" }), "rect");
    this.inside = draw(this.svg, "g", { "clip-path": "url(#instrument-close)" });
    this.sheet = new Sheet(this.inside, data.sheets.close, data.paints);
    for (const { node, words, group } of this.sheet.labels) {
      if (!ON_PHONE.includes(words) && !group?.startsWith("dent ")) node.classList.add("long");
      if (words === "cup") node.classList.add("cup-name");
    }
    this.rule = new Rule(this.svg, data);
    const words = (name) => draw(this.svg, "text", { class: name });
    this.play = words("play");
    this.rim = words("muted rim-play");
    this.notes = [words("muted"), words("muted")];
    this.highest = Math.min(...WHOLE.map((name) => this.heightsOf(name)[0]));
    const [top, foot] = this.heightsOf("ball");
    this.ball = foot - top;
  }

  // Upper and lower edge of a part on the sheet.
  heightsOf(name) {
    const parts = this.data.sheets.close.groups.flatMap((group) => group.parts), part = parts.find((each) => each.name === name);
    const heights = cornersOf(part.d).map(([, y]) => y);
    return [Math.min(...heights), Math.max(...heights)];
  }

  place(width, height, kind, hide) {
    const size = SIZES[kind], narrow = kind === "phone", sheet = this.data.sheets.close;
    const view = (narrow && sheet.narrow) || sheet.view, below = Rule.height(this.data.rule, { size: size.small, hide });
    const base = height - below, foot = view[1] + view[3];
    // As wide as the view, unless the balls would not fit above the rule.
    const scale = Math.min(width / view[2], base / (foot - this.highest + 0.3));
    const x = width / 2 - (view[0] + view[2] / 2) * scale, y = base - foot * scale;
    set(this.svg, { width, height, viewBox: `0 0 ${width} ${height}` });
    set(this.window, { x: 0, y: 0, width, height: base });
    Object.assign(this, { size, width, height, base, narrow, hide });
    this.sheet.place({ scale, x, y, size: size.small, room: width, narrow, raised: narrow ? ABOVE : [] });
    this.inside.classList.toggle("tiny", narrow && this.ball * scale < WITH_CUP);
    this.inside.classList.toggle("narrow", narrow);
    this.sheet.hideGroup("should stand", hide.has("good"));
    this.rule.place({ base, scale, x, width, size: size.small, narrow, hide });
    this.placeWords();
  }

  // Outboard and above there is room beside the shell.
  placeWords() {
    const { size, width, height, data, hide } = this, way = data.out, x = way < 0 ? 16 : width - 16;
    const anchor = way < 0 ? "start" : "end";
    const at = (node, y, px) => set(node, { x, y, "text-anchor": anchor, "font-size": `${px}px` });
    at(this.play, size.large + (this.narrow ? 2 : 8), size.large);
    at(this.rim, size.large + size.middle + (this.narrow ? 8 : 16), size.middle);
    // What is not measured stands beside the first bar, which is a short one; so does the clamp's force on a phone.
    const lines = this.noteLines(), last = height - 9;
    const first = hide.has("numbers") ? last - size.small - 5 : this.base + 16;
    this.notes.forEach((node, i) => {
      at(node, i < lines.length - 1 ? first : last, size.small);
      node.textContent = lines[i] ?? "";
    });
  }

  noteLines() {
    const { factor, thread_coarser: coarser, numbers } = this.data, lines = [], enlarged = `Gap and rule ${factor} ×`;
    if (this.narrow) return this.hide.has("numbers") ? [enlarged] : [this.clampLine(), enlarged]; // there is room for no more
    const few = numbers.unmeasured.slice(0, NAMED), more = numbers.unmeasured.length - few.length;
    if (few.length) lines.push(`Not measured: ${few.join(", ")}${more ? ` and ${more} more` : ""}.`);
    return [...lines, `${enlarged} the parts; thread ${coarser} × coarser.`];
  }

  // With what force the clamp is computed, which is no more than assumed where nobody measured it.
  clampLine() {
    const { sheets, numbers } = this.data, force = sheets.close.labels.find(({ group }) => group === FORCE).text;
    return `Clamp ${force}${numbers.unmeasured.includes(FORCE) ? ", not measured" : ""}`;
  }

  show(place) {
    const { vars, stage } = place, wide = vars.cone * this.data.factor;
    this.sheet.move({ ...vars, open: Number(wide > ARROWS) }, stage);
    this.rule.show(place);
  }

  tell(place, digits) {
    const { now } = place;
    this.rule.tell(place, digits);
    const hidden = this.hide.has("numbers"), { felt } = this.data.numbers;
    const rim = now > 0 ? `${feltAt(felt, "rim", now).toFixed(2)} mm at the rim` : `${this.narrow ? "" : "balls "}pinched with ${Math.round(feltAt(felt, "preload", now) / 10) * 10} N`;
    put(this.play, hidden ? "" : playWords(now, digits));
    put(this.rim, hidden ? "" : rim);
    this.svg.setAttribute("aria-label", hidden ? "One ball between cup and cone" : `One ball between cup and cone: ${playWords(now, digits)}`);
  }
}
