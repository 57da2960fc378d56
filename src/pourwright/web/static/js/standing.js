import { el } from "./dom.js";

const NAMES = { plan: "Plan", mold: "Mold", fill: "Fill" };

/** When something was made, as the maker's own computer writes it. @param {string} iso */
function moment(iso) {
  return new Date(iso).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
}

function line(name, standing) {
  if (!standing.there) return el("li", { class: "quiet", text: `${NAMES[name]}: not worked out yet.` });
  const made = standing.made ? ` made ${moment(standing.made)}` : "";
  if (!standing.old) return el("li", {}, `${NAMES[name]}:${made}, of the choices as they are now.`);
  return el(
    "li",
    { class: "old" },
    el("span", {}, `${NAMES[name]}:${made}. `),
    el("span", { class: "old-word", text: `Old: ${standing.word}.` }),
    el("ul", {}, ...standing.because.map((text) => el("li", { text }))),
  );
}

/** What is there of a job, and whether it is of today's choices. */
export class Standing {
  /** @param {import("./desk.js").Desk} desk */
  constructor(desk) {
    this.desk = desk;
    this.list = el("ul", { class: "runs-there", "aria-label": "What is worked out" });
    this.timer = 0;
  }

  /** Ask anew, once for several reasons that come together. */
  ask() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.load(), 150);
  }

  async load() {
    let told;
    try {
      told = await this.desk.get("standing.json");
    } catch {
      return; // the line above says that the server is away
    }
    this.list.replaceChildren(...Object.keys(NAMES).map((name) => line(name, told[name])));
    for (const name of Object.keys(NAMES)) this.mark(name, told[name]);
    this.desk.tell("standing", told);
  }

  /** Mark every part of the page that shows such an answer, by look and by word. */
  mark(name, { old, word }) {
    for (const place of document.querySelectorAll(`[data-of="${name}"]`)) {
      place.classList.toggle("old", old);
      place.querySelector(":scope > .old-word")?.remove();
      if (old) place.prepend(el("p", { class: "old-word", text: `Old: the ${name}: ${word}.` }));
    }
  }
}
