/** Pointing into the picture, by hand or by arrow keys; what is there is said. */

import { el } from "../dom.js";
import { tick } from "./panel.js";

const CASTING = new Set(["piece", "band", "pour"]);
const KEYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

export class Pointer {
  /** @param {import("./job.js").View} view */
  constructor(view) {
    this.view = view;
    this.cross = el("div", { class: "view-cross", "aria-hidden": "true" });
    this.cross.hidden = true;
    this.says = el("p", { class: "view-value", role: "status", text: "Click into the picture to read what is there." });
    this.keys = tick("Arrow keys move the pointer, not the view", false, (on) => this.#byKeys(on));
    this.node = el("div", {}, this.says, this.keys.node);
    this.at = null;
    view.canvas.addEventListener("click", (event) => this.#click(event));
    view.canvas.addEventListener("keydown", (event) => this.#key(event));
  }

  /** Ask again for the same place, after something else is shown there. */
  again() {
    if (this.at) this.#soon();
  }

  /** Put the cross where it belongs. */
  place() {
    this.cross.hidden = !this.at;
    if (this.at) this.cross.style.transform = `translate(${this.at[0]}px, ${this.at[1]}px)`;
  }

  #click(event) {
    if (this.view.orbit.moved > 5) return;
    const box = this.view.canvas.getBoundingClientRect();
    this.#point([event.clientX - box.left, event.clientY - box.top]);
  }

  #byKeys(on) {
    const { clientWidth, clientHeight } = this.view.canvas;
    if (on && !this.at) this.#point([clientWidth / 2, clientHeight / 2]);
    if (on) this.view.canvas.focus();
  }

  #key(event) {
    const step = KEYS[event.key];
    if (step && this.keys.input.checked && this.at) {
      const far = event.shiftKey ? 2 : 12;
      const most = [this.view.canvas.clientWidth, this.view.canvas.clientHeight];
      this.#point(this.at.map((value, k) => Math.max(0, Math.min(most[k], value + far * step[k]))), true);
      event.preventDefault();
    } else if (this.view.orbit.key(event)) event.preventDefault();
  }

  #point(at, soon = false) {
    this.at = at;
    this.place();
    if (soon) this.#soon();
    else this.#ask();
  }

  #soon() {
    clearTimeout(this.later);
    this.later = setTimeout(() => this.#ask(), 150);
  }

  async #ask() {
    const met = this.view.stage.met(...this.at);
    if (!met) {
      this.says.textContent = "Nothing is there.";
      return;
    }
    this.asking?.abort();
    this.asking = new AbortController();
    try {
      const told = await this.view.desk.get(this.#question(met), this.asking.signal);
      this.says.textContent = told.text;
    } catch (error) {
      if (error.name !== "AbortError") this.says.textContent = error.words ?? error.message;
    }
  }

  #question(met) {
    const { view } = this;
    const [x, y, z] = met.place.map((value) => value.toFixed(6));
    const { part } = view.stage.bodies.get(met.id);
    this.hot = met.cut && view.hot && CASTING.has(part.kind);
    if (this.hot) return `heat/at.json?x=${x}&y=${y}&z=${z}&hours=${view.heat.told.hours[view.controls.moment]}`;
    const tint = met.id === "surface" && !met.cut ? `&tint=${view.colour}&triangle=${met.triangle}` : "";
    return `view/at.json?x=${x}&y=${y}&z=${z}&part=${met.id}${tint}`;
  }
}
