import { get } from "../desk.js";
import { el } from "../dom.js";

let asked = null;

/** Help of all fields, asked for once. @returns {Promise<Record<string, object>>} */
export function helps() {
  asked ??= get("/help.json").catch((error) => {
    asked = null;
    throw error;
  });
  return asked;
}

/**
 * A `?` button and the place where its help opens.
 * @param {string} id of the field's element
 * @param {string} key
 * @param {string} label
 * @returns {[HTMLElement, HTMLElement]}
 */
export function helpFor(id, key, label) {
  const place = el("div", { class: "help", id: `${id}-help`, hidden: true });
  const button = el("button", {
    type: "button", class: "ask", text: "?", "aria-expanded": "false", "aria-controls": place.id,
    "aria-label": `Help: ${label}`, onclick: () => toggled(button, place, key),
  });
  return [button, place];
}

async function toggled(button, place, key) {
  place.hidden = !place.hidden;
  button.setAttribute("aria-expanded", String(!place.hidden));
  if (place.hidden || place.childElementCount) return;
  try {
    place.replaceChildren(...told((await helps())[key]));
  } catch (error) {
    place.textContent = error.words ?? error.message;
  }
}

function told(help) {
  if (!help) return [el("p", { text: "There is no help for this field." })];
  const why = help.why ? [el("p", {}, el("strong", { text: "Why it matters: " }), help.why)] : [];
  const typical = el("p", {}, el("strong", { text: "Typical: " }), `${help.typical} `, el("span", { class: "quiet", text: `(${help.source})` }));
  return [el("p", { text: help.sentence }), ...why, typical];
}
