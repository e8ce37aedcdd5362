// The path of one hub as a chart: acts across, the cone's place up and down, the good range as a band.

const HIGH = 190;
const EDGE = { left: 34, right: 10, top: 24, foot: 10 };
const TICK = 5; // minutes of the clock from one line to the next

export class PathChart {
  constructor(host, acts, { chart, minute }, missed) {
    Object.assign(this, { acts, range: chart, minute, missed });
    this.svg = draw(host, "svg", { role: "img", class: "chart", height: HIGH });
    this.svg.setAttribute("aria-label", "Where the cone stood act by act, in minutes of the clock out from finger contact");
    const id = `path-${(chartsBuilt += 1)}`;
    this.window = draw(draw(draw(this.svg, "defs"), "clipPath", { id }), "rect");
    this.ticks = draw(this.svg, "g");
    const inside = draw(this.svg, "g", { "clip-path": `url(#${id})` });
    this.band = draw(inside, "path", { class: "band" });
    this.line = missed === null ? null : draw(inside, "line", { class: "missed" });
    this.way = draw(inside, "path", { class: "way" });
    this.now = draw(this.svg, "circle", { class: "now", r: 6 });
    draw(this.svg, "text", { class: "muted", x: 0, y: 13 }, "Cone out, in minutes of the clock");
    this.words = draw(this.svg, "text", { class: "strong halo", "text-anchor": "end" }, chart.band);
  }

  x(act) {
    const room = this.width - EDGE.left - EDGE.right;
    return EDGE.left + (room * act) / Math.max(this.acts.length - 1, 1);
  }

  y(angle) {
    const { from, to } = this.range;
    return HIGH - EDGE.foot - ((angle - from) / (to - from)) * (HIGH - EDGE.top - EDGE.foot);
  }

  place(width) {
    this.width = width;
    set(this.svg, { width, viewBox: `0 0 ${width} ${HIGH}` });
    set(this.window, { x: EDGE.left, y: EDGE.top, width: width - EDGE.left, height: HIGH - EDGE.top });
    this.placeTicks();
    const half = (this.x(1) - this.x(0)) / 2, last = this.acts.length - 1;
    const edge = (which, order) => order.flatMap((i) => {
      const y = this.y(this.acts[i].good[which]), ends = [i ? this.x(i) - half : this.x(i), i < last ? this.x(i) + half : this.x(i)];
      return (which ? ends : ends.reverse()).map((x) => `${x} ${y}`);
    });
    const all = this.acts.map((_, i) => i);
    this.band.setAttribute("d", `M${[...edge(1, all), ...edge(0, [...all].reverse())].join("L")}Z`);
    this.way.setAttribute("d", `M${this.acts.map(({ angle }, i) => `${this.x(i)} ${this.y(angle)}`).join("L")}`);
    if (this.line) set(this.line, { x1: this.x(this.missed), x2: this.x(this.missed), y1: EDGE.top, y2: HIGH });
    set(this.words, { x: this.x(last), y: this.y(this.acts[last].good[1]) - 5 });
  }

  placeTicks() {
    this.ticks.replaceChildren();
    const step = TICK * this.minute, { from, to } = this.range;
    for (let at = Math.ceil(from / step); at * step <= to; at += 1) {
      const y = this.y(at * step);
      draw(this.ticks, "line", { class: "tick", x1: EDGE.left, x2: this.width, y1: y, y2: y });
      draw(this.ticks, "text", { class: "muted", "text-anchor": "end", x: EDGE.left - 6, y: y + 4, "data-minutes": at * TICK }, String(at * TICK).replace("-", "−"));
    }
  }

  // A cone further out than the chart reaches is shown at its edge.
  show(act, angle) {
    const y = Math.min(Math.max(this.y(angle), EDGE.top), HIGH - EDGE.foot);
    set(this.now, { cx: this.x(act), cy: y });
  }
}

let chartsBuilt = 0;
