import { fits } from "./cut/fits.js";
import { left } from "./cut/left.js";
import { followRun } from "./cut/run.js";
import { Desk } from "./desk.js";
import { el } from "./dom.js";

const LOOK_AGAIN = 5000;
const root = document.getElementById("cut");
const desk = new Desk(root);
const place = (id) => document.getElementById(id);

/** The list on this device: what is ticked here and elsewhere. */
class Sawing {
  constructor() {
    this.list = root.dataset.list;
    this.boxes = [...root.querySelectorAll("[data-mark]")];
    this.shown = {};
    /** Grows with every press, so that an answer from before it is not believed. */
    this.pressed = 0;
  }

  begin() {
    // on a phone the ticks come first
    if (matchMedia("(max-width: 46rem)").matches) for (const order of root.querySelectorAll(".cut-order")) order.open = false;
    root.addEventListener("change", (event) => this.#changed(event.target));
    place("saw-again").addEventListener("click", () => this.send("again.json", {}));
    place("fits-ask")?.addEventListener("click", (event) => fits(desk, event.target, place("fits")));
    document.addEventListener("visibilitychange", () => this.look());
    setInterval(() => this.look(), LOOK_AGAIN);
    return this.look();
  }

  /** Ask what is ticked, here and on other devices. */
  async look() {
    if (document.visibilityState !== "visible") return;
    const before = this.pressed;
    try {
      const state = await desk.get("cut/ticks.json");
      if (before !== this.pressed) return;
      if (this.away) this.tell("");
      this.away = false;
      this.show(state);
    } catch (refusal) {
      this.away = true;
      this.tell(refusal.words ?? refusal.message);
    }
  }

  #changed(box) {
    if ("mark" in box.dataset) return this.#tick([box.dataset.mark], box.checked);
    if ("whole" in box.dataset) return this.#tick(this.#of(box.dataset.whole).map((one) => one.dataset.mark), box.checked);
    return undefined;
  }

  #tick(marks, sawn) {
    return this.send("ticks.json", { marks, sawn });
  }

  #of(wood) {
    const whole = root.querySelector(`[data-whole="${wood}"]`);
    // a bar's table follows its own tick, as a sheet's does
    return [...whole.closest(".cut-whole").nextElementSibling.querySelectorAll("[data-mark]")];
  }

  /** Change something, then show how it stands. @param {string} path @param {object} asked */
  async send(path, asked) {
    this.pressed += 1;
    const turn = this.pressed;
    this.tell("");
    try {
      const state = await desk.send(`cut/${path}`, { seen: this.list, ...asked });
      if (turn === this.pressed) this.show(state);
    } catch (refusal) {
      await this.look();
      this.tell(refusal.words ?? refusal.message);
    }
  }

  tell(words) {
    if (place("cut-refused").textContent !== words) place("cut-refused").textContent = words;
  }

  /** @param {any} state */
  show(state) {
    if (state.list !== this.list) return location.reload();
    const sawn = new Set(state.sawn);
    for (const box of this.boxes) {
      box.checked = sawn.has(box.dataset.mark);
      box.closest("tr").classList.toggle("sawn", box.checked);
    }
    for (const wood of state.wood) this.#wood(wood, state.book);
    this.#count(`${state.sawn.length} of ${state.parts} parts are sawn.`);
    this.#part("old", [state.old, state.word, state.because], () => old(state));
    this.#part("dropped", state.dropped, () => dropped(state.dropped, () => this.send("understood.json", {})));
    return undefined;
  }

  #count(words) {
    if (place("cut-count").textContent === words) return;
    place("cut-count").textContent = words;
    desk.say(words);
  }

  #wood(wood, book) {
    const whole = root.querySelector(`[data-whole="${wood.name}"]`);
    whole.checked = wood.sawn === wood.parts;
    whole.indeterminate = wood.sawn > 0 && !whole.checked;
    root.querySelector(`[data-count="${wood.name}"]`).textContent = `${wood.sawn} of ${wood.parts}`;
    const under = root.querySelector(`[data-left="${wood.name}"]`);
    if (under && this.#isNew(wood.name, [wood.left, wood.words, book])) under.replaceChildren(...left(wood, book, this));
  }

  #part(name, told, make) {
    if (this.#isNew(name, told)) place(`cut-${name}`).replaceChildren(...make());
  }

  #isNew(part, told) {
    const text = JSON.stringify(told);
    const other = this.shown[part] !== text;
    this.shown[part] = text;
    return other;
  }
}

const lines = (texts) => el("ul", {}, ...texts.map((text) => el("li", { text })));

function old({ old: is, word, because }) {
  if (!is) return [];
  return [el("div", { class: "old" }, el("p", { class: "old-word", text: `Old: ${word}. Work it out anew before you saw on.` }), lines(because))];
}

function dropped(texts, understood) {
  if (!texts.length) return [];
  const said = "The list was made anew, and these parts are no longer what was sawn. Their ticks are dropped:";
  const button = el("button", { type: "button", text: "I have read it", onclick: understood });
  return [el("section", { class: "sheet", "aria-label": "Ticks that were dropped" }, el("p", { class: "warn", text: said }), lines(texts), button)];
}

if (place("run")) followRun(place("run"), desk);
if (root.dataset.list) await new Sawing().begin();
root.dataset.ready = "yes";
