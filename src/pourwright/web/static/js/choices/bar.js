import { el } from "../dom.js";
import { sentence } from "./editor.js";

/** Undo and redo, what was done last, and a file that cannot be read. @param {HTMLElement} root @param {import("./store.js").Store} store */
export function mountBar(root, store) {
  const said = el("p", { class: "last", hidden: true });
  const undo = stepButton(store, "undo", "Undo", said);
  const redo = stepButton(store, "redo", "Redo", said);
  const here = onlyHere(store);
  const broken = el("div", { class: "broken sheet", role: "alert", hidden: true });
  // beside the steps they stay in sight, wherever one works on the page
  document.querySelector(".steps")?.append(el("span", { class: "walk" }, undo, redo));
  root.append(here, said, broken);
  store.listen((told) => {
    offered(undo, "Undo", told.undo);
    offered(redo, "Redo", told.redo);
    here.hidden = told.variants.length < 2;
    if (told.said) shortly(said, told.said);
    showBroken(broken, store, told);
  });
  document.addEventListener("keydown", (event) => byKey(event, undo, redo));
}

/** Show what was done for a while; who cannot see it is told by the live region. */
function shortly(place, words) {
  place.textContent = words;
  place.hidden = false;
  clearTimeout(place.timer);
  place.timer = setTimeout(() => (place.hidden = true), 8000);
}

function stepButton(store, which, text, said) {
  const step = async () => {
    try {
      await store.walk(which);
    } catch (error) {
      shortly(said, error.words ?? error.message);
    }
  };
  return el("button", { type: "button", text, disabled: true, "data-step": which, onclick: step });
}

function offered(button, word, what) {
  // a button that goes dark under the finger takes the keyboard with it
  const held = document.activeElement === button;
  button.disabled = !what && !held;
  button.setAttribute("aria-disabled", String(!what));
  button.setAttribute("aria-label", what ? `${word}: ${what}` : `${word}: nothing`);
  button.title = what ? `${word}: ${what}` : "";
}

function onlyHere(store) {
  const box = el("input", { type: "checkbox", id: "only-here", onchange: () => (store.onlyHere = box.checked) });
  return el("label", { class: "here", hidden: true }, box, " write new choices into this variant only");
}

function byKey(event, undo, redo) {
  if (!(event.ctrlKey || event.metaKey) || event.altKey || isText(event.target)) return;
  const key = event.key.toLowerCase();
  const button = key === "y" || (key === "z" && event.shiftKey) ? redo : key === "z" ? undo : null;
  if (!button) return;
  event.preventDefault();
  button.click();
}

/** Fields that undo what is typed in them themselves. */
function isText(target) {
  return target.matches?.("textarea, [contenteditable], input:not([type=checkbox], [type=radio], [type=range])") ?? false;
}

function showBroken(place, store, told) {
  place.hidden = !told.broken;
  if (!told.broken) return place.replaceChildren();
  const { faults, last_good: good } = told.broken;
  const rows = faults.map((fault) =>
    el("li", {}, fault.line ? el("button", { type: "button", text: `line ${fault.line}`, onclick: () => store.openText(fault.line) }) : null, ` ${sentence(fault)}`),
  );
  const back = good === null ? null : el("button", { type: "button", class: "first", text: "Go back to the last good text", onclick: () => goBack(place, store, good, told.sha256) });
  place.replaceChildren(
    el("h3", { class: "stop", text: "The job file was changed and cannot be read now" }),
    el("p", { text: good === null ? "Mend its text; until then there is nothing to show." : "What the page shows is the last text that could be read. Mend the file, or go back; what was written by hand stays within reach of undo and redo." }),
    el("ul", {}, ...rows),
    el("div", { class: "row" }, back, el("button", { type: "button", text: "Mend the text", onclick: () => store.openText(faults[0]?.line ?? 1) })),
  );
}

async function goBack(place, store, good, sha256) {
  try {
    await store.put(good, sha256);
  } catch (error) {
    place.append(el("p", { class: "stop", text: error.words ?? error.message }));
  }
}
