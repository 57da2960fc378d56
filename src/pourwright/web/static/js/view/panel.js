/** What one chooses about the picture: parts, colours, cut, how far apart, heat. */

import { el } from "../dom.js";

let count = 0;

/** A labelled slider. @param {string} label @param {Record<string, any>} given @param {(event: Event) => void} moved */
export function slider(label, given, moved) {
  const id = `view-${(count += 1)}`;
  const input = el("input", { type: "range", id, ...given, oninput: moved });
  const told = el("output", { for: id, class: "quiet" });
  const node = el("div", { class: "view-slider" }, el("label", { for: id, text: label }), input, told);
  const say = (text) => {
    told.textContent = text;
    input.setAttribute("aria-valuetext", text);
  };
  return { node, input, say };
}

/** A labelled list to choose from. @param {string} label @param {[string, string][]} options @param {(value: string) => void} chosen */
export function chooser(label, options, chosen) {
  const id = `view-${(count += 1)}`;
  const input = el("select", { id, onchange: () => chosen(input.value) }, ...options.map(([value, text]) => el("option", { value, text })));
  return { node: el("div", { class: "view-field" }, el("label", { for: id, text: label }), input), input };
}

/** A box to tick. @param {string} label @param {boolean} checked @param {(checked: boolean) => void} changed */
export function tick(label, checked, changed) {
  const input = el("input", { type: "checkbox", checked, onchange: () => changed(input.checked) });
  return { node: el("label", { class: "view-tick" }, input, el("span", { text: label })), input };
}

/** A row of buttons. @param {string} label @param {[string, () => void][]} buttons */
export function buttons(label, rows) {
  const made = rows.map(([text, act]) => el("button", { type: "button", text, onclick: act }));
  return el("div", { class: "view-buttons", role: "group", "aria-label": label }, ...made);
}

/** The list of parts: one of what takes the same room, and any of the rest. */
export class Parts {
  /** @param {(ids: Set<string>) => void} changed */
  constructor(changed) {
    this.changed = changed;
    this.node = el("fieldset", { class: "view-parts" });
    this.off = new Set();
    this.hidden = new Set(["bar"]);
    this.inside = "piece";
    this.variety = "piece";
  }

  /** @param {any} view view.json */
  fill(view) {
    this.view = view;
    const inside = view.kinds.filter((kind) => kind.kind === "piece" || kind.kind === "master");
    const rest = view.kinds.filter((kind) => !kind.inside);
    this.node.replaceChildren(
      el("legend", { text: "Parts" }),
      ...inside.map((kind) => this.#radio(kind.kind, kind.words)),
      this.#radio("none", "neither of them"),
      ...rest.map((kind) => this.#kind(kind)),
    );
    this.tell();
  }

  /** Show the piece alone for a while, and then again what was shown before. @param {boolean} alone */
  alone(alone) {
    const rest = this.view.kinds.filter((kind) => !kind.inside).map((kind) => kind.kind);
    if (alone) this.before ??= new Set(this.hidden);
    else if (this.before) this.hidden = this.before;
    if (alone) rest.forEach((kind) => this.hidden.add(kind));
    else this.before = null;
    for (const box of this.node.querySelectorAll("[data-kind]")) box.checked = !this.hidden.has(box.dataset.kind);
  }

  /** Which of the kinds in the mold stands for the piece: itself, its bands or its pours. @param {string} variety */
  as(variety) {
    this.variety = variety;
    this.tell();
  }

  tell() {
    const wanted = this.inside === "piece" ? this.variety : this.inside;
    const shown = this.view.parts.filter(({ id, kind }) => {
      const among = this.view.kinds.find((each) => each.kind === kind);
      return (among.inside ? kind === wanted : !this.hidden.has(kind)) && !this.off.has(id);
    });
    const ids = new Set(shown.map((part) => part.id));
    if (wanted === "surface") ids.add("surface");
    this.changed(ids);
  }

  #radio(value, words) {
    const input = el("input", { type: "radio", name: "view-inside", value, checked: this.inside === value, onchange: () => this.#choose(value) });
    return el("label", { class: "view-tick" }, input, el("span", { text: words }));
  }

  #choose(value) {
    this.inside = value;
    this.hidden[value === "master" ? "delete" : "add"]("bar");
    const bars = this.node.querySelector('[data-kind="bar"]');
    if (bars) bars.checked = value === "master";
    this.tell();
  }

  #kind({ kind, words }) {
    const parts = this.view.parts.filter((part) => part.kind === kind);
    const { node, input } = tick(words, !this.hidden.has(kind), (checked) => {
      this.hidden[checked ? "delete" : "add"](kind);
      this.tell();
    });
    input.dataset.kind = kind;
    if (parts.length < 2) return node;
    const each = parts.map((part) => this.#one(part));
    const list = el("details", {}, el("summary", { text: `each of the ${parts.length}` }), ...each);
    return el("div", { class: "view-kind" }, node, list);
  }

  #one(part) {
    return tick(part.words, !this.off.has(part.id), (checked) => {
      this.off[checked ? "delete" : "add"](part.id);
      this.tell();
    }).node;
  }
}
