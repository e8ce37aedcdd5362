// Where the hands take hold: the two spanners on the dial, and lever, nut or handle of the clamp on the whole hub.

// Left and right as out and in lie in the picture; up is more, which is out.
const MINUTE_KEYS = { ArrowRight: -1, ArrowDown: -1, ArrowLeft: 1, ArrowUp: 1, PageDown: -5, PageUp: 5 };
const CLOSE_KEYS = { ArrowRight: 0.1, ArrowUp: 0.1, ArrowLeft: -0.1, ArrowDown: -0.1 }; // of the way
const END_KEYS = { End: true, Home: false };
const NEAR_NUT = 14; // degrees beside the locknut's spanner that still take hold of it

export function holdDial(dial, hands) {
  const cone = dial.cone.node, nut = dial.nut?.node;
  const coneSlider = makeSlider(cone, "Cone spanner, minutes out", Math.round(hands.numbers.from / 6), Math.round(hands.numbers.to / 6));
  for (const handle of [dial.cone, dial.nut]) if (handle) outline(handle, "focus", (part) => part.name.endsWith("spanner"));
  const nutSlider = nut ? makeSlider(nut, "Locknut spanner", 0, 100) : () => {};
  onDrag(dial.svg, (event) => {
    const { way, far } = dial.about(event), on = event.target;
    if (far > 1.04 && !cone.contains(on) && !nut?.contains(on)) return null;
    return nut && takesNut(dial, hands, on, way) ? pullNut(dial, hands, way) : pullCone(dial, hands, way);
  });
  onKeys(cone, (event) => coneKey(event, hands));
  if (nut) onKeys(nut, (event) => closeKey(event, hands, "nut"));
  return (words) => {
    const { at } = hands;
    coneSlider(Math.round(at.angle / 6), words);
    nutSlider(Math.round(100 * at.nut), at.nut >= 1 ? "tight" : at.nut <= 0 ? "loose" : "turning");
  };
}

// What moves is what was grabbed.
function takesNut(dial, hands, on, way) {
  if (dial.nut.node.contains(on)) return true;
  if (dial.cone.node.contains(on)) return false;
  const stands = dial.nutAngle(hands.at.nut);
  return Math.abs(wrapDegrees(way - stands)) < NEAR_NUT;
}

function pullCone(dial, hands, way) {
  let before = way;
  hands.grabCone();
  return {
    move(event) {
      const { way: now, far } = dial.about(event), by = wrapDegrees(now - before);
      before = now;
      if (far > 0.06) hands.pullCone(dial.way * by);
    },
    up: (kind) => hands.dropCone(kind),
  };
}

function pullNut(dial, hands, way) {
  let before = way;
  hands.grab("nut");
  return {
    move(event) {
      const { way: now } = dial.about(event), by = wrapDegrees(now - before);
      before = now;
      hands.pull(by / dial.nutSwing);
    },
    up: (kind) => hands.drop(kind),
  };
}

// The outlines of a handle's parts again, under it and moving with it.
function outline({ node, parts }, kind, wanted = () => true) {
  node.prepend(...parts.filter(wanted).map(({ name, d }) => draw(null, "path", { d, class: `${kind} of-${name}` })));
}

function coneKey(event, hands) {
  if (event.key === "g" || event.key === "G") {
    hands.change({ regripped: !hands.at.regripped });
    return true;
  }
  const way = MINUTE_KEYS[event.key], to = { Home: 0, End: hands.numbers.to }[event.key]; // Home is finger contact
  if (way) hands.keyCone(way * (event.shiftKey ? 1 : 6));
  else if (to !== undefined) hands.keyCone(to - hands.at.angle);
  return Boolean(way) || to !== undefined;
}

function closeKey(event, hands, what) {
  const { key } = event, by = CLOSE_KEYS[key], to = END_KEYS[key] ?? (["Enter", " "].includes(key) ? hands.at[what] < 1 : undefined);
  if (by) hands.keyClose(what, by);
  else if (to !== undefined) hands.finish(what, to, "keys");
  return by !== undefined || to !== undefined;
}

// The clamp's handle on the sheet of the whole hub.
export function holdClamp(whole, hands) {
  const { handle } = whole, { control, states } = whole.data.clamp;
  const slider = makeSlider(handle.node, control, 0, 100);
  outline(handle, "focus");
  outline(handle, "reach"); // a finger is wider than a lever
  onDrag(handle.node, (event) => pullHandle(whole, hands, event));
  onKeys(handle.node, (event) => closeKey(event, hands, "lever"));
  return () => {
    const { lever } = hands.at, part = lever > 0 && lever < 1;
    const force = part ? `, ${Math.round(100 * clampForce(lever))} % of the clamp force` : "";
    slider(Math.round(100 * lever), stateWords(states, lever) + force);
  };
}

function pullHandle(whole, hands, event) {
  let { at } = whole.pulled(null, event);
  hands.grab("lever");
  return {
    move(moved) {
      const pulled = whole.pulled(at, moved);
      at = pulled.at;
      hands.pull(pulled.by);
    },
    up: (kind) => hands.drop(kind),
  };
}
