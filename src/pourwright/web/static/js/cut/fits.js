import { el } from "../dom.js";
import { lotName } from "./lot.js";

/** Ask which parts fit on the offcuts of the book. @param {import("../desk.js").Desk} desk @param {HTMLButtonElement} button @param {HTMLElement} place */
export async function fits(desk, button, place) {
  button.disabled = true;
  place.replaceChildren(el("p", { class: "quiet", text: "is being looked for ..." }));
  try {
    const { offcuts } = await desk.get("cut/fits.json");
    place.replaceChildren(...(offcuts.length ? offcuts.map(told) : [el("p", { text: "None of the book's offcuts holds a part that is not sawn yet." })]));
  } catch (refusal) {
    place.replaceChildren(el("p", { class: "stop", text: refusal.words ?? refusal.message }));
  } finally {
    button.disabled = false;
  }
}

function told(one) {
  return el(
    "div",
    { class: "cut-left" },
    el("p", {}, lotName(one.lot, "Lot"), `, ${one.name}. These fit on it together: ${one.marks.join(", ")}.`),
    el("details", {}, el("summary", { text: "To have it sawn from there" }), el("p", { text: "Write this into the job file and work it out anew." }), el("pre", { tabindex: "0", text: one.lines.join("\n") })),
  );
}
