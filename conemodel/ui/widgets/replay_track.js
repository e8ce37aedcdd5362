// One path of a replay: the instrument's close view of the hub as it stood, the words of the act, and the chart.

const ROCKS = 2; // times to and fro in one act

const NARROW = 420; // px: a narrower picture has room for few names
const NAMED = ["cup", "ball", "cone", "locknut"];

const ease = (part) => part * part * (3 - 2 * part);

export class Track {
  constructor(host, data, { name, acts }, { kind, cue }) {
    Object.assign(this, { data, acts, cue });
    const box = make(host, "div", `track ${kind}`), shown = make(box, "div", "shown");
    make(shown, "p", "name", name);
    this.svg = draw(shown, "svg", { role: "img" });
    this.hub = new BenchHub(this.svg);
    this.hub.take({ sheet: data.sheet, paints: data.paints, vars: {}, stage: acts[0].stage });
    for (const { node, words } of this.hub.sheet.labels) if (!NAMED.includes(words)) node.classList.add("long");
    const words = make(box, "div", "act-words");
    this.words = Object.fromEntries(["count", "done", "told", "cue"].map((each) => [each, make(words, "p", each)]));
    this.words.cue.hidden = true;
    if (data.chart) this.chart = new PathChart(make(box, "div", "chart"), acts, data, cue ? cue.at : null);
  }

  place(width, phone) {
    const { view, narrow } = this.data.sheet, box = phone && narrow ? narrow : view, high = Math.round((width * box[3]) / box[2]);
    this.hub.place(width, high, box, [0, 0, width, high]);
    this.hub.sheet.room = width; // a name that moves out of the picture with its part is not seen
    this.svg.classList.toggle("narrow", width < NARROW);
    this.chart?.place(width);
  }

  // Between two acts the hub is on its way from one to the next; past its last act it stays.
  show(at) {
    const last = this.acts.length - 1, from = Math.min(Math.floor(at), last), to = Math.min(from + 1, last);
    const part = from === last ? 0 : at - Math.floor(at), number = part ? to : from, act = this.acts[number];
    const vars = mixed(this.acts[from].vars, this.acts[to].vars, ease(part));
    const swing = part && act.rocked ? (1 - Math.cos(2 * Math.PI * ROCKS * part)) / 2 : 0;
    const rocked = swing * Math.max(vars.cone, 0), gap = vars.cone - rocked;
    this.hub.drawing.stage = act.stage;
    this.hub.move({ ...vars, rocked, touch: Number(gap <= 0), open: Number(gap * this.data.factor > ARROWS), apart: 1 - vars.clamp });
    for (const name of BESIDE) this.hub.sheet.hideGroup(name, true);
    this.hub.sheet.hideGroup("clamp force", !act.on_nut);
    this.tell(number, act);
    const angle = this.acts[from].angle + (this.acts[to].angle - this.acts[from].angle) * ease(part);
    this.chart?.show(from + part, angle);
    return number;
  }

  tell(number, act) {
    const { count, done, told, cue } = this.words;
    put(count, `${number ? `Act ${number} of ${this.acts.length - 1}` : "At the start"}. ${act.stands}.`);
    put(done, act.done);
    put(told, act.told);
    this.svg.setAttribute("aria-label", `One ball between cup and cone. ${act.done}. ${act.stands}.`);
    if (!this.cue) return;
    put(cue, this.cue.gesture);
    cue.hidden = number !== this.cue.at;
  }

  // All of it as a list, for who does not see it move.
  list(host, name) {
    const box = make(host, "div");
    make(box, "p", "name", name);
    const list = make(box, "ol");
    list.start = 0;
    this.acts.forEach(({ done, told, stands }, number) => {
      const cue = this.cue?.at === number ? ` ${this.cue.gesture}` : "";
      make(list, "li", "", `${done}. ${told} ${stands}.${cue}`);
    });
  }
}

const BESIDE = ["was backed_off", "was locked"]; // where the race was is the chart's to say
const ARROWS = 1.4; // mm drawn: a narrower gap has no room for its arrows

const mixed = (from, to, part) => Object.fromEntries(Object.entries(from).map(([name, value]) => [name, value + (to[name] - value) * part]));

function make(parent, tag, name = "", text = "") {
  const node = document.createElement(tag);
  if (name) node.className = name;
  if (text) node.textContent = text;
  parent.append(node);
  return node;
}
