// Silent until the button is pressed; the context is born in that press, as browsers ask.
class Sound {
  constructor(button) {
    this.button = button;
    button?.addEventListener("click", () => this.toggle());
    if (button) this.show();
  }

  show() {
    const on = Boolean(this.context);
    this.button.textContent = on ? "Sound off" : "Sound on";
  }

  toggle() {
    if (this.context) this.close();
    else this.context = new AudioContext();
    this.show();
  }

  knock(level, muffle) {
    if (!this.context || level <= 0) return;
    const now = this.context.currentTime;
    for (const { hz, gain, decay } of knockNotes(level, muffle)) {
      const note = new OscillatorNode(this.context, { frequency: hz });
      const fade = new GainNode(this.context, { gain: 0 });
      fade.gain.setValueAtTime(0, now);
      fade.gain.linearRampToValueAtTime(0.8 * gain, now + 0.004);
      fade.gain.setTargetAtTime(0, now + 0.006, decay / 2);
      note.connect(fade).connect(this.context.destination);
      note.start(now);
      note.stop(now + 6 * decay);
    }
  }

  // A running rustle: level 0..1, centre of its band in Hz.
  rustle(level, hz) {
    if (!this.context) return;
    if (!this.noise) this.startNoise();
    this.band.frequency.setTargetAtTime(hz, this.context.currentTime, 0.03);
    this.volume.gain.setTargetAtTime(0.5 * level, this.context.currentTime, 0.03);
  }

  startNoise() {
    const { sampleRate } = this.context;
    const buffer = new AudioBuffer({ length: 2 * sampleRate, sampleRate });
    const draw = seeded(7), samples = buffer.getChannelData(0);
    for (let i = 0; i < samples.length; i += 1) samples[i] = 2 * draw() - 1;
    this.noise = new AudioBufferSourceNode(this.context, { buffer, loop: true });
    this.band = new BiquadFilterNode(this.context, { type: "bandpass", frequency: 600, Q: 0.8 });
    this.volume = new GainNode(this.context, { gain: 0 });
    this.noise.connect(this.band).connect(this.volume).connect(this.context.destination);
    this.noise.start();
  }

  close() {
    this.context?.close();
    this.context = this.noise = undefined;
  }
}
