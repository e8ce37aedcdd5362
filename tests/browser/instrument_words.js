// Words of the instrument that lie on each other, on a bar, pointer or line, across the edge of a part, or are cut off; and balls that are.
() => {
  const frame = [...document.querySelectorAll("*")].map((e) => e.shadowRoot?.querySelector(".instrument")).find(Boolean);
  const seen = (node) => node.getClientRects().length > 0 && node.checkVisibility({ visibilityProperty: true, opacityProperty: true });
  const meet = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  const texts = [...frame.querySelectorAll("svg text")].filter((node) => node.textContent && seen(node))
    .map((node) => ({ node, words: node.textContent, box: inkOf(node), svg: node.ownerSVGElement }));
  const svgs = [...frame.querySelectorAll("svg")];
  const [marks, parts] = [marksIn, partsIn].map((inside) => new Map(svgs.map((svg) => [svg, inside(svg)])));
  const found = [], say = (text, what) => found.push(`${text.words} | ${what}`);
  texts.forEach((one, i) => texts.slice(i + 1).forEach((other) => meet(one.box, other.box) && say(one, other.words)));
  for (const text of texts) {
    if (!within(text.box, text.svg.getBoundingClientRect())) say(text, "cut off");
    for (const mark of marksOf(text)) say(text, mark.getAttribute("class"));
    if (text.node.matches(".inside") && !isClearOfHatching(text)) say(text, "hatching");
    for (const part of partsOf(text)) if (straddles(text, part)) say(text, `edge of ${part.getAttribute("class")}`);
  }
  for (const name of ["ball", "inset-edge"]) {
    const part = frame.querySelector(`.close .${name}`), svg = frame.querySelector(".close svg"), room = svg.getBoundingClientRect();
    const high = Number(svg.querySelector("clipPath rect").getAttribute("height")), { left, right, top } = room;
    if (seen(part) && !within(part.getBoundingClientRect(), { left, right, top, bottom: top + high })) found.push(`${name} | cut off`);
  }
  for (const node of [frame.querySelector(".head"), ...frame.querySelectorAll(".acts button, .go")]) {
    if (node.scrollHeight > node.clientHeight + 1 || node.scrollWidth > node.clientWidth + 1) found.push(`${node.innerText} | cut off`);
  }
  return found;

  // What keeps hatching away from the letters reaches far enough, and not over the edge of their part.
  function isClearOfHatching({ node, box: { left, right, top, bottom }, svg }) {
    const clear = parseFloat(getComputedStyle(node).strokeWidth) / 2;
    const all = { node, svg, box: { left: left - clear, right: right + clear, top: top - clear, bottom: bottom + clear } };
    return clear >= 4 && !partsOf(all).some((part) => straddles(all, part));
  }
  // Where letters are: capitals stand on the line, and some letters hang below it.
  function inkOf(node) {
    const { left, right } = node.getBoundingClientRect(), size = parseFloat(getComputedStyle(node).fontSize);
    const line = new DOMPoint(0, Number(node.getAttribute("y") ?? 0)).matrixTransform(node.getScreenCTM()).y;
    return { left, right, top: line - 0.7 * size, bottom: line + (/[gjpqy,;]/.test(node.textContent) ? 0.2 : 0) * size };
  }
  function within(box, room) {
    return box.left >= room.left && box.right <= room.right && box.top >= room.top && box.bottom <= room.bottom;
  }
  function marksOf({ node, box, svg }) {
    return marks.get(svg).filter((mark) => mark.parentNode !== node.parentNode
      && (mark.matches(".plumb, .leader") ? crosses(mark, box) : meet(box, mark.getBoundingClientRect())));
  }
  function partsOf({ node, box, svg }) {
    if (node.parentNode.matches(".rule .label") && /^[\d.]+$/.test(node.textContent)) return [];
    return parts.get(svg).filter((part) => meet(box, part.box)).map((part) => part.node);
  }
  // Parts with an outline; what is seen through a hole is left out, and so are the figures on the rule.
  function partsIn(svg) {
    return [...svg.querySelectorAll(".part")].filter((node) => seen(node) && !node.closest(".parts [clip-path]"))
      .filter((node) => node.style.fill !== "none" && node.style.stroke !== "none")
      .map((node) => ({ node, box: node.getBoundingClientRect() }));
  }
  function marksIn(svg) {
    const all = [...svg.querySelectorAll(".bar, .assumed, .pointer, .plumb, .leader")];
    return all.filter((mark) => seen(mark) && mark.getAttribute("d") !== "");
  }
  // Words stand on a part or beside it.
  function straddles({ node, box }, part) {
    const frame = part.closest("[clip-path]"), back = part.getScreenCTM().inverse();
    const low = frame && !frame.contains(node) ? part.ownerSVGElement.querySelector("clipPath rect").getBoundingClientRect().bottom : Infinity;
    const inside = gridOf(box).map((point) => point.y < low && part.isPointInFill(point.matrixTransform(back)));
    return inside.includes(true) && inside.includes(false);
  }
  function gridOf({ left, right, top, bottom }) {
    const across = Array.from({ length: Math.ceil((right - left) / 4) + 1 }, (_, i) => Math.min(left + 4 * i, right));
    return across.flatMap((x) => [top, (top + bottom) / 2, bottom].map((y) => new DOMPoint(x, y)));
  }
  function crosses(line, box) {
    const onto = line.getScreenCTM(), long = line.getTotalLength();
    return Array.from({ length: Math.ceil(long) + 1 }, (_, i) => line.getPointAtLength(Math.min(i, long)))
      .map((point) => new DOMPoint(point.x, point.y).matrixTransform(onto))
      .some(({ x, y }) => x > box.left && x < box.right && y > box.top && y < box.bottom);
  }
}
