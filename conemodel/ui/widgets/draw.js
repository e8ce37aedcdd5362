// What lies over the hub in the four pictures: fingers, arrows, words, a scale. All lengths in px, colours the palette's.

export const TURN = 2 * Math.PI;

export function shape(pen, fill, edge, path, width = 1.25) {
  pen.beginPath();
  path(pen);
  if (fill) {
    pen.fillStyle = fill;
    pen.fill();
  }
  if (edge) {
    pen.strokeStyle = edge;
    pen.lineWidth = width;
    pen.stroke();
  }
}

export const box = (pen, x, y, w, h, r, fill, edge, width) =>
  shape(pen, fill, edge, (p) => p.roundRect(x, y, w, h, r), width);

export const line = (pen, x1, y1, x2, y2, edge, width) =>
  shape(pen, null, edge, (p) => { p.moveTo(x1, y1); p.lineTo(x2, y2); }, width);

export function arrow(pen, x1, y1, x2, y2, colour, width = 3) {
  const way = Math.atan2(y2 - y1, x2 - x1), head = 3.2 * width;
  if (Math.hypot(x2 - x1, y2 - y1) < head) return;
  line(pen, x1, y1, x2 - 0.7 * head * Math.cos(way), y2 - 0.7 * head * Math.sin(way), colour, width);
  tip(pen, x2, y2, way, head, colour);
}

export function tip(pen, x, y, way, size, colour) {
  shape(pen, colour, null, (p) => {
    p.moveTo(x, y);
    for (const side of [-1, 1]) p.lineTo(x - size * Math.cos(way + side * 0.45), y - size * Math.sin(way + side * 0.45));
    p.closePath();
  });
}

export function words(pen, look, text, x, y, { size = 15, align = "center", colour = look.ink, weight = "" } = {}) {
  pen.font = `${weight} ${size}px ${look.font}`;
  pen.textAlign = align;
  pen.textBaseline = "middle";
  pen.fillStyle = colour;
  pen.fillText(text, x, y);
}

// How much the movement is enlarged is always written, and what a millimetre of it looks like always drawn.
export function scaleBar(pen, look, x, y, pxPerMetre, magnification) {
  const lengths = [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200];
  const fitting = lengths.filter((mm) => (mm / 1000) * pxPerMetre <= 90);
  const mm = fitting.length ? fitting[fitting.length - 1] : lengths[0];
  const long = (mm / 1000) * pxPerMetre;
  shape(pen, null, look.ink, (p) => {
    p.moveTo(x, y - 5);
    p.lineTo(x, y + 5);
    p.moveTo(x, y);
    p.lineTo(x + long, y);
    p.moveTo(x + long, y - 5);
    p.lineTo(x + long, y + 5);
  }, 1.75);
  words(pen, look, `${mm} mm`, x + long + 8, y, { size: 13, align: "left" });
  const scale = magnification === 1 ? "movement at true scale" : `movement drawn ${magnification}×`;
  words(pen, look, scale, x, y - 16, { size: 13, align: "left" });
}

// One stroke of the pen on one part, at twelve o'clock before that part was turned.
export function penStroke(pen, look, clockwise, from, to) {
  pen.save();
  pen.rotate(clockwise);
  line(pen, 0, -from, 0, -to, look.petrol, 3.5);
  pen.restore();
}

// How far the hand is ahead of what it turns, clockwise from one angle to another: a wedge between two radii.
export function drawLag(pen, look, [inner, outer], from, to) {
  if (Math.abs(to - from) < 0.01) return;
  const [start, end] = [from - TURN / 4, to - TURN / 4], back = to < from;
  pen.globalAlpha = 0.45;
  shape(pen, look.petrol, null, (p) => {
    p.arc(0, 0, outer, start, end, back);
    p.arc(0, 0, inner, end, start, !back);
    p.closePath();
  });
  pen.globalAlpha = 1;
}

// A finger seen from its side, its pad towards (x, y), reaching back along `way`.
export function finger(pen, look, x, y, way, thick, long) {
  pen.save();
  pen.translate(x, y);
  pen.rotate(way);
  box(pen, 0, -thick / 2, long, thick, [thick / 2, 4, 4, thick / 2], look.petrol_tint, look.petrol);
  shape(pen, null, look.petrol, (p) => p.ellipse(thick * 0.5, -thick * 0.2, thick * 0.28, thick * 0.2, 0, 0, TURN), 1);
  pen.restore();
}

// Clockwise angle of a place about a centre.
export const bearing = (place, centre) => Math.atan2(place.y - centre.y, place.x - centre.x);

// The way from one angle to the next, never more than half a turn.
export const wrap = (angle) => angle - TURN * Math.round(angle / TURN);
