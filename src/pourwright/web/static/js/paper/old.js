import { el } from "../dom.js";

/** Why something is old. @param {string} words @param {string[]} because */
export function oldWords(words, because) {
  const list = because.length ? [el("ul", { class: "because" }, ...because.map((text) => el("li", { text })))] : [];
  return [el("p", { text: words }), ...list];
}
