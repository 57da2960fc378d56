import { Refusal, send } from "./desk.js";

const root = document.getElementById("orders");
const place = (id) => document.getElementById(id);
const FOCUS = "orders-focus";
const url = (path) => `/orders/${path}?list=${encodeURIComponent(root.dataset.list)}`;

/** Ask for a change, then show the page as it is then. @param {string} path @param {object} body @param {HTMLElement} from */
async function change(path, body, from) {
  place("refused").textContent = "";
  from.disabled = true;
  try {
    await send(url(path), body);
    if (from.dataset.line) sessionStorage.setItem(FOCUS, from.dataset.line);
    location.reload();
  } catch (error) {
    from.disabled = false;
    if (from.type === "checkbox") from.checked = !from.checked;
    if (place("working")) place("working").textContent = "";
    place("refused").textContent = error instanceof Refusal ? error.words : error.message;
  }
}

root.addEventListener("change", ({ target }) => {
  if (target.dataset.line) change("bought.json", { line: target.dataset.line, bought: target.checked }, target);
});
place("work")?.addEventListener("click", ({ currentTarget }) => {
  place("working").textContent = "Working it out ...";
  change("work.json", {}, currentTarget);
});

// a tick before this page listens would be lost
for (const box of root.querySelectorAll("[data-line]")) box.disabled = false;
// the keyboard goes on where it was
const before = sessionStorage.getItem(FOCUS);
sessionStorage.removeItem(FOCUS);
if (before) root.querySelector(`[data-line="${before}"]`)?.focus();
root.dataset.ready = "yes";
