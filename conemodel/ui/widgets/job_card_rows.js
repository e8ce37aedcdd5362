// Rows of a job card: chips, steppers, fields. Each knows its places only; what stands there it asks the card for.

function make(tag, className, words = "") {
  const element = document.createElement(tag);
  if (className) element.className = className;
  element.textContent = words;
  return element;
}

function button(className, words, press) {
  const element = make("button", className, words);
  element.type = "button";
  element.addEventListener("click", press);
  return element;
}

function press(chip, on) {
  chip.setAttribute("aria-pressed", on);
}

const keyOf = (place) => place.slice(0, 2).join("/");

const WAYS = { 1: "out (anticlockwise)", "-1": "in (clockwise)" };

// What one tap answers at once; tapped again it takes all of that back.
function offerChip(card, offer) {
  const chip = button("chip offer", offer.words, () => card.tap(`offer ${offer.words}`, offer.answers));
  return { element: chip, show: () => press(chip, card.standsAll(offer.answers)) };
}

function choiceCell(card, row, cell) {
  const chips = row.limits.choices.map((words) => {
    const chip = button("chip", words, () => card.tap(words, [[...cell.place, words]]));
    chip.dataset.choice = words;
    return chip;
  });
  return { elements: chips, show: () => chips.forEach((chip) => press(chip, card.valueAt(cell.place) === chip.dataset.choice)) };
}

// Which way a size goes, out or in: asked by chip, never by a sign. A size that is typed first waits for its way.
function waysOf(card, cell, name, send) {
  const chips = make("div", "chips"), said = make("p", "way");
  let way = null, typed = null, answered = false;
  const give = (size) => {
    typed = null;
    if (size < 0) card.say(`${name}: minutes without a sign; tap which way.`);
    else if (way || !size) send(way * size);
    else card.say(`${name}: ${(typed = size)} min which way? Tap out or in.`);
  };
  const take = (to) => {
    const size = typed ?? Math.abs(card.valueAt(cell.place) ?? 0);
    way = to;
    if (size) give(size);
    else show(card.valueAt(cell.place));
  };
  const buttons = [1, -1].map((to) => [to, button("chip", WAYS[to], () => take(to))]);
  chips.append(...buttons.map(([, chip]) => chip));
  const show = (value) => {
    if (value) way = Math.sign(value);
    else if (value === null && answered) way = null;
    answered = value !== null;
    for (const [to, chip] of buttons) press(chip, way === to);
    said.textContent = value ? `${Math.abs(value)} min ${WAYS[way]}` : "";
    said.hidden = !value;
  };
  return { chips, said, give, show, typed: () => typed };
}

function amountCell(card, row, cell, name) {
  const { unit, least, most, step, whole } = row.limits, digits = (String(step).split(".")[1] ?? "").length;
  const field = make("input", "number"), send = (value) => card.answer([[...cell.place, value]]);
  const ways = least < 0 ? waysOf(card, cell, name, send) : null, give = ways ? ways.give : send;
  const turn = (by) => () => {
    const now = card.valueAt(cell.place);
    if (now === null) send(cell.start);
    else give(Number(Math.min(most, Math.max(Math.max(least, 0), Math.abs(now) + by * step)).toFixed(digits)));
  };
  const down = button("stepper", "−", turn(-1)), up = button("stepper", "+", turn(1));
  const back = button("stepper back", "×", () => send(null));
  down.setAttribute("aria-label", `${name}: less`);
  up.setAttribute("aria-label", `${name}: more`);
  back.setAttribute("aria-label", `${name}: take back`);
  field.inputMode = "decimal";
  field.setAttribute("aria-label", unit ? `${name} in ${unit}` : name);
  field.addEventListener("change", () => {
    const text = field.value.trim().replace(",", ".").replace("−", "-"), value = Number(text);
    if (!text) send(null);
    else if (Number.isFinite(value)) give(whole ? Math.round(value) : value);
    else card.say(`${name}: "${field.value}" is no number.`);
  });
  const line = make("div", "steps");
  line.append(down, field, make("span", "unit", unit), up, back);
  const show = () => {
    const value = card.valueAt(cell.place);
    if (!field.matches(":focus") || value !== null) field.value = value === null ? (ways?.typed() ?? "") : ways ? Math.abs(value) : value;
    line.classList.toggle("answered", value !== null);
    back.hidden = value === null;
    ways?.show(value);
  };
  return { elements: ways ? [ways.chips, line, ways.said] : [line], show };
}

function textCell(card, row, cell, name) {
  const field = make("input", "field");
  field.type = row.kind === "day" ? "date" : "text";
  if (row.limits.longest) field.maxLength = row.limits.longest;
  field.setAttribute("aria-label", name);
  field.addEventListener("change", () => card.answer([[...cell.place, field.value.trim() || null]]));
  return {
    elements: [field],
    show: () => {
      if (!field.matches(":focus")) field.value = card.valueAt(cell.place) ?? "";
      field.classList.toggle("answered", card.valueAt(cell.place) !== null);
    },
  };
}

const CELLS = { choice: choiceCell, amount: amountCell, text: textCell, day: textCell };

// One side, one round or the whole of a row, with what is known beside it.
function makeCell(card, row, cell) {
  const element = make("div", "cell"), name = [row.words, cell.label].filter(Boolean).join(", ");
  if (row.kind !== "text") {
    element.setAttribute("role", "group");
    element.setAttribute("aria-label", name);
  }
  if (cell.label) element.append(make("p", "label", cell.label));
  if (cell.advice) element.append(make("p", "advice", `Advised: ${cell.advice}`));
  const offers = cell.offers.map((offer) => offerChip(card, offer));
  const asked = CELLS[row.kind](card, row, cell, name), chips = make("div", "chips");
  chips.append(...offers.map((offer) => offer.element));
  const [first, ...after] = row.kind === "choice" ? [null] : [asked.elements[0], ...asked.elements.slice(1)];
  if (first) element.append(chips, first, ...after);
  else {
    chips.append(...asked.elements);
    element.append(chips);
  }
  const notes = [cell.before && `last time: ${cell.before}`, cell.was && `corrected, was: ${cell.was}`].filter(Boolean);
  if (notes.length) element.append(make("p", "note", notes.join(" · ")));
  return { element, show: () => [...offers, asked].forEach((part) => part.show()) };
}

function torqueTable({ mark, rows }) {
  const fold = make("details", "torques"), table = make("table");
  for (const [part, range] of rows) {
    const line = make("tr");
    line.append(make("th", "", part), make("td", "", range));
    line.firstChild.scope = "row";
    table.append(line);
  }
  fold.append(make("summary", "", "Usual torques"), make("p", "note", mark), table);
  return fold;
}

export function sideBySide(rows) {
  const table = make("table"), head = make("tr");
  head.append(...["Asked", "Then", "Now"].map((words) => make("th", "", words)));
  for (const cell of head.children) cell.scope = "col";
  table.append(head);
  for (const [asked, then, now] of rows) {
    const line = make("tr");
    line.append(make("th", "", asked), make("td", "", then), make("td", "", now || "–"));
    line.firstChild.scope = "row";
    table.append(line);
  }
  return table;
}

function pictures(drawn) {
  const strip = make("div", "pictures");
  for (const [words, svg] of Object.entries(drawn)) {
    const figure = make("figure"), picture = make("div");
    picture.innerHTML = svg; // drawn by the program, with no word of anybody's in it
    figure.append(picture, make("figcaption", "", words));
    strip.append(figure);
  }
  return strip;
}

export function makeRow(card, row, data) {
  const element = make("div", `row ${row.kind} ${row.cells.length > 1 ? "sides" : ""}`), shown = [];
  const head = make("div", "asked");
  if (row.words) head.append(make("h3", "", row.words));
  if (row.hint) head.append(make("p", "hint", row.hint));
  if (row.caution) head.append(make("p", "caution", `⚠ ${row.caution}`));
  if (row.said) head.append(make("p", "said", row.said));
  element.append(head);
  if (row.pictured) element.append(pictures(data.pictures[row.pictured]));
  const cells = make("div", "cells");
  for (const cell of row.cells) {
    const made = makeCell(card, row, cell);
    cells.append(made.element);
    shown.push(made);
  }
  for (const offer of row.offers ?? []) {
    const made = offerChip(card, offer);
    cells.append(made.element);
    shown.push(made);
  }
  if (row.kind === "measured") cells.append(button("chip", "Measure this hub", () => card.measure()));
  element.append(cells);
  if (row.torques) element.append(torqueTable(data.torques));
  return { element, show: () => shown.forEach((part) => part.show()) };
}
