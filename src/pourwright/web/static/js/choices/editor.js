import { el } from "../dom.js";
import { askBoth } from "./conflict.js";

/** The job file as text, with the lines of what is wrong. @param {import("./store.js").Store} store */
export function editorFor(store) {
  return new Editor(store).element;
}

class Editor {
  constructor(store) {
    this.store = store;
    this.seen = "";
    this.text = el("textarea", { id: "job-text", spellcheck: "false", rows: "24", wrap: "off", autocomplete: "off", "aria-describedby": "job-text-faults" });
    this.faults = el("div", { id: "job-text-faults", class: "faults", role: "status", "aria-live": "polite" });
    this.element = this.#built();
    this.element.addEventListener("toggle", () => this.element.open && !this.touched && this.load());
    store.openText = (line) => this.open(line);
    store.listen((told) => this.element.open && !this.touched && told.sha256 !== this.seen && this.load());
  }

  get touched() {
    return this.loaded !== undefined && this.text.value !== this.loaded;
  }

  async load() {
    try {
      const file = await this.store.desk.get("file.json");
      this.#show(file.text, file.sha256, file.faults);
    } catch (error) {
      this.#tell([{ what: error.words ?? error.message }]);
    }
  }

  /** @param {number} [line] */
  async open(line) {
    this.element.open = true;
    if (!this.touched) await this.load();
    this.element.scrollIntoView({ block: "start" });
    this.#mark(line ?? 1);
  }

  async save(seen = this.seen) {
    try {
      const told = await this.store.put(this.text.value, seen);
      await this.load();
      this.#tell([], told.said ? `Saved: ${told.said}` : "Nothing to save.");
    } catch (error) {
      await this.#refused(error);
    }
  }

  async #refused(error) {
    if (error.status === 409 && error.body?.conflict) return this.#both(error.body.conflict.file);
    const line = Number(/^line (\d+)/.exec(error.where ?? "")?.[1]);
    this.#tell([{ line: line || null, where: error.where?.replace(/^line \d+ ?/, ""), what: error.what, todo: error.todo, allowed: error.allowed }]);
    if (line) this.#mark(line);
  }

  async #both(file) {
    const whose = await askBoth("The job file", file, this.text.value);
    if (whose === "") return;
    const now = await this.store.desk.get("file.json");
    if (whose === "mine") await this.save(now.sha256);
    else this.#show(now.text, now.sha256, now.faults);
  }

  #show(text, sha256, faults) {
    this.text.value = text;
    // as the text field keeps it: its line ends may differ
    this.loaded = this.text.value;
    this.seen = sha256;
    this.#tell(faults);
  }

  #mark(line) {
    const lines = this.text.value.split("\n");
    const start = lines.slice(0, line - 1).reduce((sum, each) => sum + each.length + 1, 0);
    this.text.focus();
    this.text.setSelectionRange(start, start + (lines[line - 1]?.length ?? 0));
    const height = this.text.scrollHeight / Math.max(lines.length, 1);
    this.text.scrollTop = Math.max(0, (line - 4) * height);
  }

  #tell(faults, words = "") {
    const told = faults.map((fault) =>
      el("p", { class: "stop" }, fault.line ? el("button", { type: "button", text: `line ${fault.line}`, onclick: () => this.#mark(fault.line) }) : null, ` ${sentence(fault)}`),
    );
    this.faults.replaceChildren(...told, ...(words ? [el("p", { class: "good", text: words })] : []));
  }

  #built() {
    const again = () => {
      this.loaded = undefined;
      return this.load();
    };
    return el(
      "details",
      { class: "whole", id: "job-text-part" },
      el("summary", { text: "The job file as text" }),
      el("p", { class: "quiet" }, "Everything the job holds; comments after ", el("code", { text: "#" }), " are yours and stay. It lies in the job's folder and may be changed with any editor."),
      el("label", { for: "job-text", text: "job.toml" }),
      this.text,
      this.faults,
      el("div", { class: "row" }, el("button", { type: "button", class: "first", text: "Save the text", onclick: () => this.save() }), el("button", { type: "button", text: "Read it from disk again", onclick: again })),
    );
  }
}

/** One sentence of a fault. @param {{where?: string, what: string, allowed?: string, todo?: string}} fault */
export function sentence(fault) {
  const parts = [fault.where ? `${fault.where}: ${fault.what}` : fault.what, fault.allowed && `allowed: ${fault.allowed}`, fault.todo && `next: ${fault.todo}`];
  return `${parts.filter(Boolean).join("; ")}.`;
}
