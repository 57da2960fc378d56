import { el } from "../dom.js";
import { askBoth } from "./conflict.js";
import { controlFor } from "./controls.js";
import { helpFor } from "./help.js";
import { readAs } from "./store.js";

const PLAIN = new Set(["choice", "yes-no", "text", "id", "date", "direction", "time zone"]);
const PAUSE = 150;
const LONG = 22;

/** One field: its control, the same in other units, its default, its help, its refusal. */
export class Field {
  #asking = null;
  #writing = null;
  #pause = 0;

  /** @param {import("./store.js").Store} store @param {object} told one field of choices.json */
  constructor(store, told) {
    this.store = store;
    this.told = told;
    this.id = `f-${told.key.replaceAll(/[^A-Za-z0-9]+/g, "-")}`;
    this.control = controlFor(told, this.id);
    this.element = this.#built();
    this.#listen();
    this.update(told);
  }

  /** Whether something is typed that the file does not say. */
  get touched() {
    return this.control.value() !== this.shown;
  }

  /** Take what the file says now; what is being typed stays. @param {object} told */
  update(told) {
    const typed = this.shown !== undefined && this.touched && this.control.value() !== told.text;
    if (!typed) {
      this.control.set(told.text);
      this.told = told;
      this.shown = this.control.value();
      this.#refuse(null);
      this.#beside(told.other);
    }
    const written = told.text !== "";
    this.back.hidden = !written || told.required || (told.text === told.default && !told.in_variant) || this.control.element.tagName === "SELECT";
    this.back.textContent = told.in_variant ? "as for all variants" : `use the default: ${told.default}`;
    this.back.setAttribute("aria-label", `${this.back.textContent} (${told.label})`);
    this.mine.hidden = !told.in_variant;
    this.element.classList.toggle("written", written);
  }

  /** Write what is typed. */
  async commit() {
    const wanted = this.control.value();
    // Enter is followed by a change, and so is a dialog that takes the focus away
    if (!this.touched || this.#writing === wanted) return;
    await this.#write(wanted, this.told.text);
  }

  async #write(wanted, seen) {
    this.#writing = wanted;
    const held = this.control.value();
    this.element.classList.add("saving");
    try {
      await this.store.choose(this.told.key, wanted, seen);
      if (this.control.value() === held) this.#settled();
    } catch (error) {
      await this.#refused(error, wanted);
    } finally {
      this.#writing = null;
      this.element.classList.remove("saving");
    }
  }

  /** Nothing is being typed any more: the field shows what the file says. */
  #settled() {
    this.shown = this.control.value();
    const section = this.store.document.sections.flatMap((each) => each.fields);
    const now = section.find((each) => each.key === this.told.key);
    if (now) this.update(now);
  }

  async #refused(error, wanted) {
    const both = error.status === 409 ? error.body?.conflict : null;
    if (!both) return this.#refuse(error);
    const usual = `the default, ${this.told.default}`;
    const whose = await askBoth(this.told.label, both.file || usual, wanted || usual);
    if (whose === "mine") return this.#write(wanted, both.file);
    await this.store.refresh();
    if (whose === "file") this.#settled();
  }

  #refuse(error) {
    const words = error ? (error.words ?? error.message) : "";
    if (words) this.other.textContent = "";
    this.error.textContent = words;
    this.error.hidden = !words;
    const inputs = this.control.fieldset ? this.control.element.querySelectorAll("input") : [this.control.element];
    for (const input of inputs) input.setAttribute("aria-invalid", String(Boolean(words)));
  }

  #beside(words) {
    const empty = this.control.value() === "" && this.control.element.tagName === "INPUT";
    const otherwise = this.told.default.startsWith("required") ? this.told.default : `default: ${this.told.default}`;
    this.other.textContent = empty ? otherwise : words && `= ${words}`.replace("= about", "≈");
  }

  #built() {
    const { id, told, control } = this;
    const [ask, help] = helpFor(id, told.key, told.label);
    this.other = el("span", { class: "other", id: `${id}-other` });
    this.error = el("p", { class: "stop error", id: `${id}-error`, hidden: true });
    this.mine = el("span", { class: "tag", text: "this variant only", hidden: true });
    this.back = el("button", { type: "button", class: "back", hidden: true, onclick: () => this.#toDefault() });
    control.element.setAttribute("aria-describedby", `${id}-other ${id}-error`);
    const label = control.fieldset ? el("span", { class: "label", id: `${id}-label`, text: told.label }) : el("label", { class: "label", for: id, text: told.label });
    if (control.fieldset) control.element.setAttribute("aria-labelledby", `${id}-label`);
    const head = el("div", { class: "head" }, label, this.mine, ask);
    const before = (one) => (one.id === told.default ? "default: ".length : 0);
    const wide = told.allowed.some((one) => before(one) + one.name.length > LONG) && !told.many;
    return el("div", { class: wide ? "field wide" : "field", "data-key": told.key }, head, el("div", { class: "control" }, control.element, this.other), this.error, this.back, help);
  }

  async #toDefault() {
    this.control.set("");
    await this.#write("", this.told.text);
    // refused: what stands in the file is shown again, with the reason
    if (!this.error.hidden) this.control.set(this.told.text);
  }

  #listen() {
    const { element } = this.control;
    element.addEventListener("change", () => this.commit());
    element.addEventListener("keydown", (event) => this.#key(event));
    if (!PLAIN.has(this.told.kind) && element.tagName === "INPUT" && !this.told.many) element.addEventListener("input", () => this.#typed());
  }

  #key(event) {
    if (event.key === "Enter" && event.target.tagName === "INPUT") {
      event.preventDefault();
      this.commit();
    }
    if (event.key === "Escape" && this.touched) {
      this.control.set(this.told.text);
      this.#settled();
    }
  }

  #typed() {
    clearTimeout(this.#pause);
    this.#asking?.abort();
    this.#asking = new AbortController();
    const { signal } = this.#asking;
    this.#pause = setTimeout(() => this.#read(signal), PAUSE);
  }

  async #read(signal) {
    const text = this.control.value();
    if (!text) return this.#beside("");
    try {
      const read = await readAs(text, this.told.kind, signal);
      if (signal.aborted) return;
      this.#beside(read.other);
      // not refused yet: it is still being typed
      if (read.error && !this.#writing && this.error.hidden) this.other.textContent = read.error.what;
    } catch {
      // given up for a newer text, or the server is away: the next choice tells
    }
  }
}
