import { Desk, Refusal } from "./desk.js";

const root = document.getElementById("cost");
const desk = new Desk(root);
const place = (id) => document.getElementById(id);

/** Open what a link on this page leads to, and all around it. */
function openTarget() {
  const target = place(decodeURIComponent(location.hash.slice(1)));
  if (!target || !root.contains(target)) return;
  for (let one = target; one && one !== root; one = one.parentElement) if (one.tagName === "DETAILS") one.open = true;
  for (const inside of target.querySelectorAll(":scope > details")) inside.open = true;
  target.scrollIntoView({ block: "nearest" });
}

function openAll(button) {
  const open = button.getAttribute("aria-pressed") !== "true";
  for (const line of root.querySelectorAll(".cost-line")) line.open = open;
  button.setAttribute("aria-pressed", String(open));
}

async function begin(button) {
  place("refused").textContent = "";
  button.disabled = true;
  try {
    await desk.send("cost/prices.json", { currency: place("currency").value });
    location.reload();
  } catch (error) {
    button.disabled = false;
    place("refused").textContent = error instanceof Refusal ? error.words : error.message;
  }
}

place("open-all")?.addEventListener("click", (event) => openAll(event.currentTarget));
place("new-list")?.addEventListener("click", (event) => begin(event.currentTarget));
addEventListener("hashchange", openTarget);
openTarget();
root.dataset.ready = "yes";
