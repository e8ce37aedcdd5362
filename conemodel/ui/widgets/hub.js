// The hub: cut open from the side, and end on as it stands before the mechanic.

// The shell with its two flanges, cut open so that the balls show.
export function drawShell(pen, ink, mm, lying) {
  for (const side of [-1, 1]) {
    box(pen, side * 29 * mm - 2.5 * mm, -27 * mm, 5 * mm, 54 * mm, 2 * mm, ink.steel, ink.text);
    box(pen, side * 36 * mm - 7 * mm, -17 * mm, 14 * mm, 34 * mm, 3 * mm, ink.bright, ink.text);
  }
  box(pen, -28 * mm, -13 * mm, 56 * mm, 26 * mm, 3 * mm, ink.bright, ink.text);
  for (const side of [-1, 1]) {
    for (const up of [-1, 1]) disc(pen, side * 36 * mm, up * 10 * mm, 3.2 * mm, ink.paper, ink.text, lying ? 1.25 : 1);
  }
}

export function drawAxle(pen, ink, { x, y }, mm) {
  pen.save();
  pen.translate(x, y);
  box(pen, -75 * mm, -5 * mm, 150 * mm, 10 * mm, 2 * mm, ink.dark, ink.text);
  for (const side of [-1, 1]) {
    shape(pen, ink.steel, ink.text, (p) => {
      p.moveTo(side * 35 * mm, -5 * mm);
      p.lineTo(side * 41 * mm, -9 * mm);
      p.lineTo(side * 49 * mm, -9 * mm);
      p.lineTo(side * 49 * mm, 9 * mm);
      p.lineTo(side * 41 * mm, 9 * mm);
      p.lineTo(side * 35 * mm, 5 * mm);
      p.closePath();
    });
    box(pen, side * 54.5 * mm - 4 * mm, -9 * mm, 8 * mm, 18 * mm, 1, ink.bright, ink.text);
  }
  pen.restore();
}

const SPOKES = 18;

// End on, the parts that stay still: flange with its spoke holes, shell and dust cap. `mm` is px to a millimetre.
export function drawFlange(pen, ink, mm) {
  disc(pen, 0, 0, 27 * mm, ink.bright, ink.text);
  for (let i = 0; i < SPOKES; i += 1) {
    const at = ((i + 0.5) / SPOKES) * TURN;
    disc(pen, 23 * mm * Math.cos(at), 23 * mm * Math.sin(at), 1.3 * mm, ink.paper, ink.line);
  }
  disc(pen, 0, 0, 18.5 * mm, ink.steel, ink.text);
  disc(pen, 0, 0, 16 * mm, ink.faint, ink.line);
}

// The cone: round, with two flats for its spanner.
export function drawCone(pen, ink, mm, clockwise) {
  pen.save();
  pen.rotate(clockwise);
  const r = 13 * mm, cut = Math.acos(9.6 / 13);
  shape(pen, ink.steel, ink.text, (p) => {
    p.arc(0, 0, r, cut - TURN / 4, TURN / 4 - cut);
    p.arc(0, 0, r, TURN / 4 + cut, (3 * TURN) / 4 - cut);
    p.closePath();
  });
  pen.restore();
}

export function drawLocknut(pen, ink, mm, clockwise) {
  pen.save();
  pen.rotate(clockwise);
  hexagon(pen, 9.2 * mm, ink.bright, ink.text);
  disc(pen, 0, 0, 7.4 * mm, null, ink.line, 1);
  pen.restore();
}

// A hollow axle, its end face towards us.
export function drawAxleFace(pen, ink, mm, clockwise) {
  pen.save();
  pen.rotate(clockwise);
  disc(pen, 0, 0, 5 * mm, ink.dark, ink.text);
  disc(pen, 0, 0, 2.6 * mm, ink.paper, ink.text);
  pen.restore();
}

// One stroke of the pen on one part, at twelve o'clock before that part was turned.
export function drawStroke(pen, ink, clockwise, from, to) {
  pen.save();
  pen.rotate(clockwise);
  line(pen, 0, -from, 0, -to, ink.accent, 3.5);
  pen.restore();
}
