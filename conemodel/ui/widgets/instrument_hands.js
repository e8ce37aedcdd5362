// The hands: spanners and lever are dragged or moved by keys, and acts play in the order in which hands can do them.

const ACT_MS = { load: 160, lever: 460, nut: 460, angle: 420 };
const LEAVES = 700; // ms without a key after which the hub is locked and clamped again
const SNAP = 1; // degrees: the page keeps whole ones

const ease = (part) => part * part * (3 - 2 * part);
const wrapDegrees = (angle) => angle - 360 * Math.round(angle / 360);

export class Hands {
  constructor({ numbers, clamp, onShow, onRest, onSay }) {
    Object.assign(this, { numbers, clamp, onShow, onRest, onSay });
    this.at = { angle: 0, nut: 0, lever: 0, load: 0, regripped: false };
    this.calm = matchMedia("(prefers-reduced-motion: reduce)");
    this.note = "";
  }

  place(angle, stage) {
    this.stop();
    const rank = STAGES.indexOf(stage);
    Object.assign(this.at, { angle, nut: Number(rank >= 2), lever: Number(rank >= 3), load: Number(rank >= 4) });
    this.onShow();
  }

  change(part) {
    Object.assign(this.at, part);
    this.onShow();
  }

  // The cone was moved elsewhere, by Undo or by a slider: it goes there from wherever it is, even on its way; a hand
  // that holds it is not disturbed, and tells on letting go.
  moveTo(angle) {
    if (this.held || this.waits) return;
    const heading = this.frame ? this.wanted : { angle: this.at.angle, stage: stageOf(this.at) };
    if (Math.abs(angle - heading.angle) < 1e-6) return;
    this.wanted = { angle, stage: heading.stage };
    this.play(planActs(this.at, this.wanted));
  }

  bounded(angle) {
    return Math.min(Math.max(Math.round(angle / SNAP) * SNAP, this.numbers.from), this.numbers.to);
  }

  get busy() {
    return Boolean(this.frame || this.held || this.waits);
  }

  stop() {
    cancelAnimationFrame(this.frame);
    this.frame = 0;
    this.acts = [];
  }

  // Nothing that was under way or waited for goes on.
  halt() {
    clearTimeout(this.waits);
    this.waits = 0;
    this.stop();
  }

  // Plays acts one after the other; `pace` makes them quicker where a hand waits for them.
  play(acts, { pace = 1, then = () => {} } = {}) {
    this.stop();
    this.acts = [...acts];
    const next = () => {
      const act = this.acts.shift();
      if (!act) {
        this.frame = 0;
        this.note = "";
        then();
        this.onShow();
        return;
      }
      this.tween(act, ACT_MS[act[0]] / pace, next);
    };
    next();
    this.onShow();
  }

  tween([name, to], long, next) {
    const from = this.at[name], start = performance.now();
    this.note = this.actWords(name, to);
    const step = (time) => {
      const part = this.calm.matches ? 1 : Math.min(Math.max((time - start) / long, 0), 1);
      this.change({ [name]: part < 1 ? from + (to - from) * ease(part) : to });
      if (part < 1) this.frame = requestAnimationFrame(step);
      else next();
    };
    if (this.calm.matches) step(start);
    else this.frame = requestAnimationFrame(step);
  }

  // An act pressed. Backing off goes back to where the cone stood, or a quarter turn out, common practice; any other
  // act finds the cone where it is.
  goTo(stage, way) {
    const { angle } = this.at, touching = Math.abs(angle) < TOUCH;
    let wanted = angle;
    if (stage === "contact") {
      if (!touching) this.kept = angle;
      wanted = 0;
    } else if (touching && stage === "backed_off") {
      wanted = this.kept ?? 90;
      this.kept = undefined;
    }
    this.send(wanted, stage, way);
  }

  turnTo(angle, way) {
    const stage = stageOf(this.at);
    this.send(this.bounded(angle), stage === "contact" ? "backed_off" : stage, way);
  }

  // What was asked for is told at once; the hands follow.
  send(angle, stage, way) {
    this.wanted = { angle, stage };
    const acts = planActs(this.at, this.wanted);
    this.onRest({ angle, stage: Math.abs(angle) < TOUCH && stage === "backed_off" ? "contact" : stage, way });
    this.play(acts, { then: () => this.onSay() });
  }

  // Taken hold of: a locked cone is undone first, in sight, and locked and clamped again when it is let go.
  grabCone() {
    const found = this.held?.back ?? (this.waits ? this.back : stageOf(this.at));
    clearTimeout(this.waits);
    this.waits = 0;
    this.back = found;
    this.kept = undefined;
    this.held = { what: "cone", wanted: this.at.angle, back: found };
    const undo = planActs(this.at, { angle: this.at.angle, stage: "backed_off" });
    if (undo.length) this.play(undo, { pace: 2.6, then: () => this.catchUp() });
    else this.stop();
  }

  pullCone(by) {
    this.held.wanted += by;
    const { from, to } = this.numbers;
    this.held.wanted = Math.min(Math.max(this.held.wanted, from), to);
    if (this.at.nut <= 0) this.change({ angle: this.bounded(this.held.wanted) });
  }

  catchUp() {
    if (this.held?.what === "cone") this.change({ angle: this.bounded(this.held.wanted) });
  }

  dropCone(way) {
    const { wanted, back } = this.held;
    this.held = undefined;
    this.send(this.bounded(wanted), back === "contact" ? "backed_off" : back, way);
  }

  // By keys each press turns at once; locking and clamping follow when the keys rest.
  keyCone(by) {
    this.grabCone();
    this.stop();
    this.held = undefined;
    this.change({ load: 0, lever: 0, nut: 0, angle: this.bounded(this.at.angle + by) });
    const back = this.back;
    this.note = STAGES.indexOf(back) >= 2 ? "undone; locks again when you stop" : "";
    this.waits = setTimeout(() => {
      this.waits = 0;
      this.send(this.at.angle, back === "contact" ? "backed_off" : back, "keys");
    }, LEAVES);
  }

  // Locknut and lever, each 0 to 1. What must come first is played first.
  grab(what) {
    this.halt();
    this.held = { what };
    if (what === "nut" && this.at.lever > 0) this.play([["load", 0], ["lever", 0]], { pace: 2.6 });
    if (what === "lever" && this.at.nut < 1) this.play([["nut", 1]], { pace: 2.6 });
    if (what === "lever") this.change({ load: 0 });
  }

  pull(by) {
    const { what } = this.held;
    if (this.frame) return;
    this.change({ [what]: share(this.at[what] + by) });
  }

  drop(way) {
    const { what } = this.held, closed = this.at[what] > 0.6 || (this.frame && what === "lever");
    this.held = undefined;
    this.finish(what, closed, way);
  }

  actWords(name, to) {
    return {
      load: "", lever: clampWords(this.clamp, to), nut: to ? "cone held, nut tightened" : "nut loosened", angle: "turning the cone",
    }[name];
  }

  // By keys it stays wherever it is put; what must come first is done at once.
  keyClose(what, by) {
    const known = this.frame || this.waits ? "" : stageOf(this.at);
    this.halt();
    this.note = "";
    this.change({ load: 0, ...(what === "lever" ? { nut: 1 } : { lever: 0 }), [what]: share(Math.round(10 * (this.at[what] + by)) / 10) });
    const stage = stageOf(this.at);
    if (stage !== known) this.onRest({ angle: this.at.angle, stage, way: "keys" });
    this.onSay();
  }

  finish(what, closed, way) {
    const open = what === "lever" ? "locked" : "backed_off";
    this.send(this.at.angle, closed ? (what === "lever" ? "clamped" : "locked") : open, way);
  }
}

// One pointer at a time; `grabbed` gives what follows it, or nothing.
export function onDrag(node, grabbed) {
  let held = null, follow;
  node.addEventListener("pointerdown", (event) => {
    if (held !== null || event.button > 0) return;
    follow = grabbed(event);
    if (!follow) return;
    held = event.pointerId;
    node.setPointerCapture(held);
    event.preventDefault();
  });
  node.addEventListener("pointermove", (event) => {
    if (event.pointerId === held) follow.move(event);
  });
  const up = (event) => {
    if (event.pointerId !== held) return;
    held = null;
    follow.up(event.pointerType === "touch" ? "touch" : "pointer");
  };
  // A finger that holds something does not scroll the page; beside it, it still does.
  node.addEventListener("touchstart", (event) => held !== null && event.preventDefault(), { passive: false });
  node.addEventListener("pointerup", up);
  node.addEventListener("pointercancel", up);
}

// `keys` names what each key does; a key that is ours goes no further.
export function onKeys(node, keys) {
  node.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || !keys(event)) return;
    event.preventDefault();
    event.stopPropagation();
  });
}

export function makeSlider(node, label, low, high) {
  const roles = { role: "slider", tabindex: 0, "aria-label": label, "aria-valuemin": low, "aria-valuemax": high };
  for (const [key, value] of Object.entries(roles)) node.setAttribute(key, String(value));
  node.classList.add("grab");
  return (now, words) => {
    set(node, { "aria-valuenow": String(now), "aria-valuetext": words });
  };
}
