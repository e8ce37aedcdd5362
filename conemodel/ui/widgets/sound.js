// Silent until it is asked for; the context is born in a press, as browsers ask. What was chosen is kept for the next hub.

const KEPT = "conemodel sound";
const LOUDEST = 2.5, SOFTEST = 0.1;

class Sound {
  constructor(button) {
    this.button = button;
    this.draw = seeded(11);
    this.chosen = readKept(KEPT);
    button.addEventListener("click", () => this.toggle());
    this.show();
    if (this.chosen?.on) this.wakeAt(button.getRootNode());
  }

  // Once chosen it comes back with the first press on the next widget.
  wakeAt(root) {
    const wake = () => this.chosen.on && this.start();
    for (const press of ["pointerdown", "keydown"]) root.addEventListener(press, wake, { once: true, capture: true });
  }

  get level() {
    return this.chosen?.level ?? 1;
  }

  show() {
    this.button.textContent = this.context ? "Sound off" : "Sound on";
  }

  start() {
    if (this.context) return;
    this.context = new AudioContext();
    this.out = new GainNode(this.context, { gain: this.level });
    this.out.connect(this.context.destination);
    this.makeNoise();
    this.show();
  }

  toggle() {
    const on = !this.context;
    if (on) this.start();
    else this.close();
    this.choose({ on });
    this.show();
  }

  choose(choice) {
    this.chosen = { on: Boolean(this.context), level: this.level, ...choice };
    this.chosen.level = Math.min(LOUDEST, Math.max(SOFTEST, this.chosen.level));
    if (this.out) this.out.gain.value = this.chosen.level;
    keep(KEPT, this.chosen);
  }

  knock(level, muffle) {
    if (level > 0) this.play(knockNotes(level, muffle));
  }

  // Notes that start at once and fade.
  play(notes) {
    if (!this.context) return;
    const now = this.context.currentTime;
    for (const { hz, gain, decay, form } of notes) {
      const note = new OscillatorNode(this.context, { frequency: hz, type: form ?? "sine" });
      const fade = new GainNode(this.context, { gain: 0 });
      fade.gain.setValueAtTime(0, now);
      fade.gain.linearRampToValueAtTime(0.8 * gain, now + 0.004);
      fade.gain.setTargetAtTime(0, now + 0.006, decay / 2);
      note.connect(fade).connect(this.out);
      note.start(now);
      note.stop(now + 6 * decay);
    }
  }

  // A grain under a ball: a scratch of noise.
  rasp(level) {
    if (!this.context) return;
    const now = this.context.currentTime, { noise } = this;
    const grain = new AudioBufferSourceNode(this.context, { buffer: noise });
    const band = new BiquadFilterNode(this.context, { type: "bandpass", frequency: 1700, Q: 0.6 });
    const fade = new GainNode(this.context, { gain: 0.7 * level });
    fade.gain.setTargetAtTime(0, now + 0.004, 0.008);
    grain.connect(band).connect(fade).connect(this.out);
    grain.start(now, 1.9 * this.draw(), 0.05);
  }

  // A running rustle: level 0..1, centre of its band in Hz.
  rustle(level, hz) {
    if (!this.context) return;
    if (!this.running) this.startRustle();
    this.band.frequency.setTargetAtTime(hz, this.context.currentTime, 0.03);
    this.volume.gain.setTargetAtTime(0.5 * level, this.context.currentTime, 0.03);
  }

  makeNoise() {
    const { sampleRate } = this.context;
    this.noise = new AudioBuffer({ length: 2 * sampleRate, sampleRate });
    const draw = seeded(7), samples = this.noise.getChannelData(0);
    for (let i = 0; i < samples.length; i += 1) samples[i] = 2 * draw() - 1;
  }

  startRustle() {
    this.running = new AudioBufferSourceNode(this.context, { buffer: this.noise, loop: true });
    this.band = new BiquadFilterNode(this.context, { type: "bandpass", frequency: 600, Q: 0.8 });
    this.volume = new GainNode(this.context, { gain: 0 });
    this.running.connect(this.band).connect(this.volume).connect(this.out);
    this.running.start();
  }

  close() {
    this.context?.close();
    this.context = this.running = this.out = undefined;
  }
}

// A browser that keeps nothing asks again.
function readKept(name) {
  try {
    return JSON.parse(localStorage.getItem(name));
  } catch {
    return null;
  }
}

function keep(name, choice) {
  try {
    localStorage.setItem(name, JSON.stringify(choice));
  } catch {
    // nothing can be kept here
  }
}
