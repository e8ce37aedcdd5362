// One drawn sheet of the hub as SVG: built once from Python's named paths, afterwards only moved.

const SVG = "http://www.w3.org/2000/svg";
const RADIAN = Math.PI / 180;
let sheetsBuilt = 0;

export function draw(parent, name, attributes = {}, text) {
  const node = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
  if (text !== undefined) node.textContent = text;
  parent?.append(node);
  return node;
}

// Nothing is written that stands there already.
export function set(node, attributes) {
  for (const [key, value] of Object.entries(attributes)) {
    const text = typeof value === "number" ? value.toFixed(4) : value;
    if (node.getAttribute(key) !== text) node.setAttribute(key, text);
  }
}

// The letters of a word are exchanged where they stand: a new node would lay out the page around it.
const put = (node, text) => {
  const { firstChild: letters } = node;
  if (!letters) node.append(text);
  else if (letters.data !== text) letters.data = text;
};

const sumOf = (rates, vars) => Object.entries(rates ?? {}).reduce((sum, [name, rate]) => sum + rate * (vars[name] ?? 0), 0);

export class Sheet {
  constructor(svg, sheet, paints) {
    this.svg = svg;
    this.sheet = sheet;
    this.id = `sheet${(sheetsBuilt += 1)}`;
    this.defs = draw(svg, "defs");
    this.root = draw(svg, "g", { class: "parts" });
    this.patterns = this.buildPaints(paints);
    this.groups = new Map();
    sheet.groups.forEach((group, place) => this.buildGroup(group, place));
    this.labels = sheet.labels.map((label) => this.buildLabel(label));
  }

  // Widths and hatches are in px, whatever the scale of the sheet.
  buildPaints(paints) {
    this.paints = paints;
    return Object.entries(paints).filter(([, paint]) => paint.hatch).map(([key, { fill, hatch }]) => {
      return { pattern: drawHatch(this.defs, `${this.id}-${key}`, hatch, fill), angle: hatch.angle };
    });
  }

  buildGroup(group, place) {
    const { name, parent, clip, parts } = group;
    const node = draw(this.groups.get(parent)?.node ?? this.root, "g", { "data-group": name });
    if (clip) {
      const path = draw(this.defs, "clipPath", { id: `${this.id}-clip${place}` });
      draw(path, "path", { d: clip });
      node.setAttribute("clip-path", `url(#${this.id}-clip${place})`);
    }
    for (const part of parts) this.buildPart(node, part);
    // What moves as a whole is painted once and then only shifted.
    if ((group.move || group.turn) && !parent && !clip) node.classList.add("moves");
    this.groups.set(name, { ...group, node });
  }

  buildPart(node, { name, title, d, paint }) {
    const { fill, stroke, width, hatch, dash, opacity } = this.paints[paint];
    const path = draw(node, "path", { d, class: `part ${name}` });
    path.style.fill = hatch ? `url(#${this.id}-${paint})` : colour(fill);
    path.style.stroke = colour(stroke);
    path.style.setProperty("--w", width);
    if (opacity) path.style.fillOpacity = opacity;
    if (dash) path.style.strokeDasharray = dash.split(" ").map((long) => `calc(${long}px * var(--u))`).join(" ");
    if (title) draw(path, "title", {}, title);
    return path;
  }

  buildLabel(label) {
    const node = draw(this.svg, "g", { class: "label" });
    const leader = label.leader && draw(node, "line", { class: "leader" });
    const { anchor = "middle", ink = "muted" } = label, text = draw(node, "text", { "text-anchor": anchor });
    text.style.fill = colour(ink);
    if (["petrol", "forbidden", "good"].includes(ink)) text.classList.add("strong");
    if (label.on) {
      text.classList.add("inside");
      text.style.stroke = colour(label.on);
    }
    return { ...label, node, text, words: label.text, line: leader };
  }

  // Units of the sheet to px of the picture, `tall` of these down. Names stay within `width` where one is given; those
  // that move out of `room` with their part are not seen; those `raised` stand higher.
  place({ scale, tall = scale, x, y, size, width, narrow, room, raised = [] }) {
    Object.assign(this, { scale, tall, x, y, size, room });
    set(this.root, { transform: `matrix(${scale} 0 0 ${tall} ${x} ${y})` });
    this.root.style.setProperty("--u", 1 / scale);
    for (const { pattern, angle } of this.patterns) {
      pattern.setAttribute("patternTransform", `scale(${1 / scale} ${1 / tall}) rotate(${angle})`);
    }
    for (const { at, leader, text, line, words, few, aside = 0 } of this.labels) {
      put(text, (narrow && few) || words);
      const [px, py] = this.px(at), x = px + aside * size;
      set(text, { "font-size": `${size}px` });
      set(text, { x: width ? keptInside(x, text, size, width) : x, y: py + (raised.includes(words) ? 0 : 0.35) * size });
      if (!line) continue;
      const [x2, y2] = this.px(leader);
      set(line, { x1: px, y1: py + (y2 > py ? 0.5 : -0.6) * size, x2, y2 });
    }
    this.shown = null;
  }

  px([x, y]) {
    return [this.x + x * this.scale, this.y + y * this.tall];
  }

  // How far a group has moved along x with everything it hangs on [mm].
  shiftOf(name, vars) {
    const group = this.groups.get(name);
    return group ? sumOf(group.move, vars) + this.shiftOf(group.parent, vars) : 0;
  }

  move(vars, stage) {
    for (const group of this.groups.values()) {
      const shift = sumOf(group.move, vars), turn = sumOf(group.turn, vars), [x, y] = group.about ?? [0, 0];
      const spin = group.turn ? ` rotate(${turn.toFixed(3)} ${x} ${y})` : "";
      const tall = group.roll ? ` scale(1 ${Math.cos((group.rolled + sumOf(group.roll, vars)) * RADIAN).toFixed(5)})` : "";
      if (group.move || group.turn) set(group.node, { transform: `translate(${shift.toFixed(5)} 0)${spin}${tall}` });
      if (group.fade) set(group.node, { opacity: vars[group.fade] });
      if (group.when && this.shown !== stage) group.node.style.display = group.when.includes(stage) ? "" : "none";
    }
    for (const { group, node, text } of this.labels) {
      if (!group) continue;
      const shift = this.shiftOf(group, vars) * this.scale;
      set(node, { transform: `translate(${shift.toFixed(2)} 0)` });
      const seen = this.isShown(group, vars, stage) && this.hasRoom(text, shift);
      if (node.style.display !== (seen ? "" : "none")) node.style.display = seen ? "" : "none";
    }
    this.shown = stage;
  }

  hasRoom(text, shift) {
    if (!this.room) return true;
    const at = Number(text.getAttribute("x")) + shift, [from, to] = spanOf(at, text, this.size);
    return from >= 0 && to <= this.room;
  }

  isShown(name, vars, stage) {
    const group = this.groups.get(name);
    if (!group) return true;
    const seen = (!group.when || group.when.includes(stage)) && (!group.fade || vars[group.fade] > 0.5);
    return seen && this.isShown(group.parent, vars, stage);
  }

  hideGroup(name, hidden) {
    const group = this.groups.get(name);
    if (group) group.node.style.visibility = hidden ? "hidden" : "";
    for (const label of this.labels) if (label.group === name) label.node.style.visibility = hidden ? "hidden" : "";
  }

  // The group that a state variable turns: the handle of that hand.
  handleOf(variable) {
    return [...this.groups.values()].find((group) => group.turn?.[variable]);
  }

  find(part) {
    return this.root.querySelector(`.${part}`);
  }
}

// Colours go by name; what they are on a light and on a dark ground comes with the data.
const colour = (name) => (name ? `var(--${name})` : "none");

export function useColours(frame, { dark, light }) {
  const ground = getComputedStyle(frame).getPropertyValue("--page").trim();
  const colours = isDark(ground) ? dark : light;
  for (const [name, value] of Object.entries(colours)) frame.style.setProperty(`--${name}`, value);
  return colours;
}

function isDark(ground) {
  const [r, g, b] = ground.startsWith("#")
    ? [1, 3, 5].map((at) => parseInt(ground.slice(at, at + 2), 16))
    : (ground.match(/\d+/g) ?? [255, 255, 255]).map(Number);
  return 0.3 * r + 0.6 * g + 0.1 * b < 128;
}

export function drawHatch(defs, id, { step, width, colour: line, crossed, angle = 0 }, fill) {
  const pattern = draw(defs, "pattern", {
    id, width: step, height: step, patternUnits: "userSpaceOnUse", patternTransform: `rotate(${angle})`,
  });
  draw(pattern, "rect", { width: step, height: step, style: `fill:${colour(fill)}` });
  const style = `stroke:${colour(line)};stroke-width:${2 * width}`;
  draw(pattern, "line", { x1: 0, x2: 0, y1: 0, y2: step, style });
  if (crossed) draw(pattern, "line", { x1: 0, x2: step, y1: 0, y2: 0, style });
  return pattern;
}

// The corners of an outline of straight lines.
export const cornersOf = (d) => [...d.matchAll(/(-?[\d.]+)[ ,](-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);

// How long words are; letters are measured once for all figures, which are equally wide.
const LENGTHS = new Map();

function lengthOf(text, size) {
  const key = `${text.getAttribute("class")} ${size} ${text.textContent.replace(/\d/g, "0")}`;
  if (!LENGTHS.has(key)) {
    const long = text.getComputedTextLength();
    if (!long) return 0.5 * size * text.textContent.length;
    LENGTHS.set(key, long);
  }
  return LENGTHS.get(key);
}

const SHARES = { start: 0, middle: 0.5, end: 1 };

// From where to where words go.
function spanOf(x, text, size) {
  const long = lengthOf(text, size), start = x - SHARES[text.getAttribute("text-anchor")] * long;
  return [start, start + long];
}

// The same of words that may not leave the picture.
export function spanInside(x, text, size, width) {
  const [from, to] = spanOf(x, text, size), start = Math.max(Math.min(from, width - 4 - (to - from)), 4);
  return [start, start + to - from];
}

// Where words start, are centred or end so that they do not leave the picture.
function keptInside(x, text, size, width) {
  const [from, to] = spanInside(x, text, size, width);
  return from + SHARES[text.getAttribute("text-anchor")] * (to - from);
}

// How far parts reach from a place, and which way: clockwise from upright.
export function reachOf(parts, [x, y] = [0, 0]) {
  const away = parts.flatMap(({ d }) => cornersOf(d)).map(([u, v]) => [u - x, v - y]);
  const tip = away.reduce((a, b) => (Math.hypot(...b) > Math.hypot(...a) ? b : a));
  return { far: Math.hypot(...tip), way: Math.atan2(tip[0], -tip[1]) / RADIAN };
}
