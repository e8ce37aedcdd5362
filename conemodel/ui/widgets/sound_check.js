// Asked once, before the first hub: can you hear and feel this? The answer sets how loud it is.

class SoundCheck {
  constructor(bench) {
    this.bench = bench;
    this.part = document.createElement("div");
    this.part.className = "check";
    this.part.innerHTML = `<p>Can you hear and feel this?</p><div class="buttons">${BUTTONS.map(([name, words]) =>
      `<button type="button" class="${name}">${words}</button>`).join("")}</div>`;
    for (const [name] of BUTTONS) this.part.querySelector(`.${name}`).addEventListener("click", () => this[name]());
    bench.find(".side").append(this.part);
  }

  play() {
    this.bench.sound.start();
    for (const [i, level] of [0.2, 0.5, 1].entries()) {
      setTimeout(() => this.bench.sound.knock(level, 0), 350 * i);
    }
    navigator.vibrate?.([8, 340, 16, 340, 26]);
  }

  change(by) {
    const { sound } = this.bench;
    sound.choose({ level: sound.level * by });
    this.play();
  }

  softer() {
    this.change(1 / 1.6);
  }

  louder() {
    this.change(1.6);
  }

  yes() {
    this.answer(true);
  }

  no() {
    this.answer(false);
  }

  answer(on) {
    const { sound } = this.bench;
    if (on) sound.start();
    else sound.close();
    sound.choose({ on });
    sound.show();
    this.part.remove();
    this.bench.canvas.focus({ preventScroll: true });
  }
}

const BUTTONS = [["play", "Play it"], ["softer", "Softer"], ["louder", "Louder"], ["yes", "Yes"], ["no", "No sound"]];
