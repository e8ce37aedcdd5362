// One job card. Every tap is shown at once and sent at once; it waits here, and in the browser's tab, until the app says
// that it is kept. What stands on the card comes from the app only.

const AGAIN = 4000; // ms until what was not answered is sent again
const LATE = 1500; // ms until it is said that something is not kept yet

class JobCard {
  constructor(root) {
    const find = (what) => root.querySelector(what);
    this.frame = find(".job-card");
    this.boxes = Object.fromEntries(["wheel", "head", "brief", "trouble", "before", "sections"].map((name) => [name, find(`.${name}`)]));
    this.jumps = find("nav");
    this.sections = new Map();
    this.rows = new Map();
    this.givenBy = new Map(); // the chip last tapped, by place
    this.seen = new IntersectionObserver(([head]) => {
      this.away = !head.isIntersecting;
      this.keepInSight();
    });
    this.seen.observe(this.boxes.head);
    this.run = Math.random().toString(36).slice(2);
    this.taps = 0;
  }

  take(data) {
    if (data.id !== this.data?.id) this.begin(data.id);
    this.data = data;
    this.values = new Map();
    const kept = new Set(data.kept);
    this.pending = this.pending.filter((tap) => !kept.has(tap.id));
    this.store();
    this.build();
    this.show();
    this.say(data.trouble);
  }

  begin(id) {
    this.pending = JSON.parse(sessionStorage.getItem(`job-card ${id}`) ?? "[]");
    for (const made of [this.sections, this.rows, this.givenBy]) made.clear();
    if (this.pending.length) this.wait(0);
  }

  store() {
    const name = `job-card ${this.data.id}`;
    if (this.pending.length) sessionStorage.setItem(name, JSON.stringify(this.pending));
    else sessionStorage.removeItem(name);
  }

  // Answers of one tap, [step, where, value] each.
  answer(answers) {
    this.pending.push({ id: `${this.run}-${(this.taps += 1)}`, answers });
    this.store();
    this.send();
    this.show();
  }

  // A chip's tap: it answers, or takes back what it answered itself; what another chip gave alike stands.
  tap(name, answers) {
    const stands = this.standsAll(answers), places = answers.map(keyOf);
    const own = places.every((place) => [undefined, name].includes(this.givenBy.get(place)));
    for (const place of places) this.givenBy.set(place, name);
    if (!stands || own) this.answer(answers.map(([step, where, value]) => [step, where, stands ? null : value]));
  }

  send() {
    this.component.setTriggerValue("taps", this.pending);
    clearTimeout(this.late);
    this.late = setTimeout(() => {
      this.isLate = true;
      this.say(this.data.trouble);
    }, LATE);
    this.wait(AGAIN);
  }

  measure() {
    this.component.setTriggerValue("measure", true);
  }

  wait(time) {
    clearTimeout(this.again);
    this.again = setTimeout(() => this.pending.length && this.send(), time);
  }

  say(words) {
    this.isLate &&= this.pending.length > 0;
    const waiting = this.isLate ? `${this.pending.length} not kept yet; it is tried again.` : "";
    const said = [words, waiting].filter(Boolean).join(" ");
    const { trouble } = this.boxes;
    if (trouble.textContent !== said) trouble.textContent = said;
    trouble.hidden = !said;
  }

  valueAt([step, where]) {
    const place = `${step}/${where}`;
    if (!this.values.has(place)) {
      const tapped = this.pending.flatMap((tap) => tap.answers).filter((each) => keyOf(each) === place).at(-1);
      this.values.set(place, tapped ? tapped[2] : (this.standing.get(place) ?? null));
    }
    return this.values.get(place);
  }

  standsAll(answers) {
    return answers.every(([step, where, value]) => this.valueAt([step, where]) === value);
  }

  build() {
    const { boxes, data } = this;
    const cells = data.sections.flatMap(({ rows, more }) => [...rows, ...more]).flatMap((row) => row.cells);
    this.standing = new Map(cells.map((cell) => [keyOf(cell.place), cell.value]));
    for (const [step, where, value] of data.besides) this.standing.set(`${step}/${where}`, value);
    arrange(boxes.sections, data.sections.map((section) => this.section(section)));
    arrange(this.jumps, data.sections.map((section) => this.sections.get(section.name).jump));
  }

  section({ name, open, offers, rows, more }) {
    if (!this.sections.has(name)) this.sections.set(name, this.makeSection(name));
    const { box, list, fold, folded, jump, count } = this.sections.get(name);
    const first = offers.length ? [{ id: `${name}/offers`, kind: "offers", cells: [], offers }] : [];
    arrange(list, [...first, ...rows].map((row) => this.row(row)));
    arrange(folded, more.map((row) => this.row(row)));
    fold.hidden = !more.length;
    jump.textContent = open ? `${name} ${open}` : `${name} ✓`;
    jump.setAttribute("aria-label", `${name}, ${open ? `${open} not answered` : "every step answered"}`);
    count.textContent = open ? `${open} open` : "every step answered";
    return box;
  }

  makeSection(name) {
    const box = make("section", "part"), list = make("div", "rows"), folded = make("div", "rows");
    const fold = make("details", "more"), head = make("h2", "", name), count = make("span", "count");
    head.append(count);
    fold.append(make("summary", "", "If measured or known"), folded);
    box.append(head, list, fold);
    return { box, list, fold, folded, count, jump: button("jump", name, () => box.scrollIntoView({ block: "start" })) };
  }

  // A row stays as it is as long as only its values change: nobody loses the field they are in.
  row(row) {
    const fixed = JSON.stringify({ ...row, cells: row.cells.map((cell) => ({ ...cell, value: null })) });
    const standing = this.rows.get(row.id);
    if (standing?.fixed === fixed && standing.pictures === this.data.pictures.cone?.good) return standing.made.element;
    const made = makeRow(this, row, this.data);
    this.rows.set(row.id, { fixed, made, pictures: this.data.pictures.cone?.good });
    return made.element;
  }

  show() {
    this.values.clear();
    for (const { made } of this.rows.values()) made.show();
    const { boxes, data } = this, { head } = data;
    boxes.wheel.textContent = data.who;
    const large = [make("p", "state", `${head.sign} ${head.words}`.trim())];
    if (head.about) large.push(make("p", "about", head.about));
    if (head.rest) large.push(make("p", "rest", head.rest));
    const below = head.below.map(([words, rest]) => {
      const line = make("p", "below");
      line.append(make("strong", "", words), ` ${rest}`);
      return line;
    });
    if (boxes.head.dataset.said !== JSON.stringify(head)) boxes.head.replaceChildren(...large, ...below);
    boxes.head.dataset.said = JSON.stringify(head);
    this.frame.dataset.question = head.question;
    this.remember(data.before);
    this.keepInSight();
    boxes.brief.textContent = `${head.sign} ${head.words}${head.about ? `: ${head.about}` : ""}`.trim();
  }

  // The last card of this wheel, beside what stands now.
  remember(before) {
    const box = this.boxes.before, said = JSON.stringify(before), open = box.querySelector("details")?.open ?? false;
    if (box.dataset.said === said) return;
    box.dataset.said = said;
    box.replaceChildren();
    if (!before) return;
    box.append(...before.back.map((words) => make("p", "below back", `↺ ${words}`)));
    const fold = make("details"), table = sideBySide(before.rows);
    const link = make("a", "", `Open the card of ${before.day}`);
    link.href = `?card=${before.id}`;
    link.target = "_self";
    box.append(link);
    fold.open = open;
    fold.append(make("summary", "", before.title), table);
    box.append(fold);
  }

  // What keeps a wheel from being ridden stays in sight when the largest words do not.
  keepInSight() {
    this.boxes.brief.hidden = !this.away || this.data?.head.question !== "safe";
  }

  close() {
    this.seen.disconnect();
    clearTimeout(this.again);
    clearTimeout(this.late);
  }
}

// Put elements in order, leaving alone those that stand right.
function arrange(parent, wanted) {
  for (const child of [...parent.children]) if (!wanted.includes(child)) child.remove();
  wanted.forEach((element, at) => {
    if (parent.children[at] !== element) parent.insertBefore(element, parent.children[at] ?? null);
  });
}

export default (component) => standAt(component, (root) => new JobCard(root));
