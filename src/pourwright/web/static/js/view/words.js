/** The text twin: what the pictures show, in sentences and one table. */

import { el, table } from "../dom.js";

/**
 * @param {import("../desk.js").Desk} desk
 * @returns {{node: HTMLElement, fresh: () => void}} loads when it is opened
 */
export function twin(desk) {
  const inside = el("div", {});
  const node = el("details", { class: "view-twin" }, el("summary", { text: "The same in words" }), inside);
  let stale = true;
  async function load() {
    if (!node.open || !stale) return;
    stale = false;
    inside.replaceChildren(el("p", { class: "quiet", text: "Measuring the piece…" }));
    try {
      inside.replaceChildren(...told(await desk.get("view/words.json")));
    } catch (error) {
      stale = true;
      inside.replaceChildren(el("p", { class: "stop", text: error.words ?? error.message }));
    }
  }
  node.addEventListener("toggle", load);
  return { node, fresh: () => ((stale = true), load()) };
}

function told(words) {
  const rows = words.parts.map((part) => [part.words, part.size, part.volume, part.mass, part.heights]);
  return [
    table("Parts", ["Part", "Size", "Volume", "Weight", "Heights"], rows),
    el("h4", { text: "How it leans" }),
    el("p", { text: words.draft.text }),
    ...section("Undercuts", words.undercuts, "Nothing of the piece leans over rubber that would be held back."),
    ...section("Thin and sharp", words.thin, "Nothing of it is thin or sharp."),
    ...section("Hottest places", words.heat, "There is no plan yet, so nothing is known of the heat."),
  ];
}

function section(title, rows, none) {
  const list = rows.length ? el("ul", {}, ...rows.map((row) => el("li", { text: row.text }))) : el("p", { text: none });
  return [el("h4", { text: title }), list];
}
