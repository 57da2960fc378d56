import { Refusal, send } from "./desk.js";
import { el } from "./dom.js";

const form = document.getElementById("leak");
const place = (id) => document.getElementById(id);
const text = (id) => place(id).value.trim();

/** What is said in the form, as the server wants it; what is empty is left out. */
export function said() {
  const asked = { poured: parts(text("poured")), no_level: place("no_level").checked };
  const read = [["dip", "at"], ["dip2", "at2"]].filter(([dip]) => text(dip));
  asked.dip = read.map(([dip]) => text(dip));
  asked.at = read.map(([, at]) => text(at)).filter(Boolean);
  if (text("caught")) asked.caught = text("caught");
  if (text("drips")) asked.drips = text("drips") === "yes";
  if (text("pour")) asked.pour = Number(text("pour"));
  return asked;
}

/** Batches with a comma between; a comma inside a number stays with it. @param {string} line */
export function parts(line) {
  return line.split(/,(?!\d)|,\s+/).map((each) => each.trim()).filter(Boolean);
}

function list(title, lines) {
  return lines.length ? [el("h3", { text: title }), el("ul", {}, ...lines.map((line) => el("li", { text: line })))] : [];
}

function show(answer) {
  const lines = answer.words.map((line, i) => el("p", { text: line, class: i === 0 ? "lead" : null }));
  place("answer").replaceChildren(
    el("h2", { text: `Pour ${answer.pour}` }),
    ...lines,
    el("p", { text: answer.heat.words }),
    ...list("Bands and bond", answer.bands),
    ...list("What does not go together", answer.clashes.map((each) => each.words)),
    ...list("Mind this", answer.warnings),
    el("details", {}, el("summary", { text: "What it rests on" }), el("ul", {}, ...answer.evidence.map((each) => el("li", { text: each.words })))),
  );
  place("answer").hidden = false;
  place("answer").scrollIntoView({ block: "start" });
}

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  place("refused").textContent = "";
  const variant = form.dataset.variant ? `?variant=${encodeURIComponent(form.dataset.variant)}` : "";
  try {
    show(await send(`/jobs/${encodeURIComponent(form.dataset.job)}/leak.json${variant}`, said()));
  } catch (error) {
    place("answer").hidden = true;
    place("refused").textContent = error instanceof Refusal ? error.words : error.message;
  }
});
