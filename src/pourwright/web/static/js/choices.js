import { mountBar } from "./choices/bar.js";
import { editorFor } from "./choices/editor.js";
import { Field } from "./choices/field.js";
import { storeOf } from "./choices/store.js";
import { el } from "./dom.js";

/**
 * The choices of one section, or the bar above them all.
 * @param {HTMLElement} root with `data-section`
 * @param {import("./desk.js").Desk} desk
 */
export async function mount(root, desk) {
  const store = storeOf(desk);
  root.classList.add("choices");
  if (root.dataset.section === "bar") mountBar(root, store);
  else new Section(root, store);
  await store.load();
}

/** Fields of one section: the main ones, and the others under 'more choices'. */
class Section {
  constructor(root, store) {
    this.store = store;
    this.name = root.dataset.section;
    this.fields = new Map();
    this.main = el("div", { class: "fields" });
    this.rest = el("div", { class: "fields" });
    this.more = el("details", { class: "more" }, el("summary", {}), this.rest);
    this.written = el("p", { class: "written-elsewhere", hidden: true });
    const editor = this.name === "paper" ? editorFor(store) : null;
    const title = el("h3", { text: "Choices", id: `choices-${this.name}` });
    root.append(el("div", { class: "sheet", role: "group", "aria-labelledby": title.id }, title, this.main, this.more, this.written, ...(editor ? [editor] : [])));
    store.listen((told) => this.update(told));
  }

  update(told) {
    const section = told.sections.find((each) => each.id === this.name);
    if (!this.#sameFields(section.fields)) this.#rebuild(section.fields);
    for (const field of section.fields) this.fields.get(field.key).update(field);
    for (const place of [this.main, this.rest]) place.inert = Boolean(told.broken);
    this.#tellWritten(section.written);
  }

  #sameFields(fields) {
    return fields.length === this.fields.size && fields.every((field) => this.#fits(this.fields.get(field.key), field));
  }

  /** Whether a field can stay: what may be chosen in it is still the same. */
  #fits(there, field) {
    return there !== undefined && there.told.main === field.main && JSON.stringify(there.told.allowed) === JSON.stringify(field.allowed) && there.told.default === field.default;
  }

  #rebuild(fields) {
    const old = this.fields;
    this.fields = new Map(fields.map((told) => [told.key, this.#fits(old.get(told.key), told) ? old.get(told.key) : new Field(this.store, told)]));
    const elements = (main) => fields.filter((told) => told.main === main).map((told) => this.fields.get(told.key).element);
    this.main.replaceChildren(...elements(true));
    this.rest.replaceChildren(...elements(false));
    const count = this.rest.childElementCount;
    this.more.hidden = !count;
    this.more.querySelector("summary").textContent = `More choices (${count})`;
  }

  #tellWritten(written) {
    this.written.hidden = !written.length;
    const links = written.map((each) => el("button", { type: "button", class: "link", text: `${each.key} (line ${each.line})`, onclick: () => this.store.openText(each.line) }));
    this.written.replaceChildren("Written in the text of the file: ", ...links);
  }
}
