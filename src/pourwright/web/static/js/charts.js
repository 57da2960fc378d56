import { el, table } from "./dom.js";
import { drawCalendar } from "./charts/calendar.js";
import { drawMatters } from "./charts/matters.js";
import { oldWords } from "./paper/old.js";

/** What draws each kind of chart: gives a function that undoes it. */
const DRAWERS = {
  lines: async (place, chart) => (await import("./charts/lines.js")).drawLines(place, chart),
  calendar: drawCalendar,
  matters: drawMatters,
};
/** Rows that are written out at once; a longer table grows as somebody opens it. */
const NEAR = "600px";

/** Put the charts of the plan on the page. @param {HTMLElement} root @param {import("./desk.js").Desk} desk */
export async function mount(root, desk) {
  const charts = new Charts(root, desk);
  desk.on("plan", () => charts.renew());
  desk.on("choices", () => charts.renew());
  await charts.renew();
}

class Charts {
  #undo = [];
  #plan = null;
  #asked = 0;

  constructor(root, desk) {
    this.root = root;
    this.desk = desk;
  }

  /** Ask what there is; draw again only where the plan is another one. */
  async renew() {
    const mine = ++this.#asked;
    let told;
    try {
      told = await this.desk.get("charts.json");
    } catch (refusal) {
      if (mine === this.#asked) this.#clear(el("p", { class: "stop", text: refusal.words ?? refusal.message }));
      return;
    }
    if (mine !== this.#asked) return;
    if (told.plan !== this.#plan || !told.plan) this.#build(told);
    this.#markOld(told.old, told.because);
  }

  #clear(...inside) {
    for (const undo of this.#undo.splice(0)) undo();
    this.#plan = null;
    this.root.replaceChildren(...inside);
  }

  #build(told) {
    if (!told.charts.length) {
      this.#clear(el("div", { class: "sheet" }, el("h3", { text: "Charts" }), el("p", { text: `No plan yet: ${told.todo}.` })));
      return;
    }
    this.#clear();
    this.#plan = told.plan;
    this.oldWord = el("div", { class: "old-word", hidden: true });
    this.root.append(this.oldWord, ...told.charts.map((chart) => this.#card(chart)));
  }

  #markOld(old, because) {
    if (!this.oldWord) return;
    this.oldWord.hidden = !old;
    this.oldWord.replaceChildren(...oldWords("Old: the job has changed, or the shop has learnt anew, since this plan was made.", because));
    for (const card of this.root.querySelectorAll(".chart")) card.classList.toggle("old", old);
  }

  #card(chart) {
    const id = `chart-${chart.name}`;
    const place = el("div", { class: "drawing" }, el("p", { class: "quiet", text: "is drawn ..." }));
    const numbers = el("details", { class: "as-table" }, el("summary", { text: "Table" }));
    const more = el("div", { class: "about" });
    const card = el(
      "section",
      { class: "sheet chart", id, "aria-labelledby": `h-${id}`, "data-chart": chart.name },
      el("h3", { id: `h-${id}`, text: chart.title }),
      el("p", { class: "sentence", text: chart.words }),
      place,
      more,
      el("div", { class: "takeaway" }, numbers, this.#link(chart, "csv", "CSV"), this.#link(chart, "svg", "SVG")),
    );
    whenNear(card, () => this.#draw(chart, place, more, numbers));
    return card;
  }

  #link(chart, kind, words) {
    const href = this.desk.url(`charts/${chart.name}.${kind}`);
    return el("a", { class: "button", href, download: true, text: words, "aria-label": `${words}: ${chart.title}` });
  }

  async #draw(chart, place, more, numbers) {
    const plan = this.#plan;
    try {
      const numbersOf = await this.desk.get(`charts/${chart.name}.json`);
      if (plan !== this.#plan) return;
      place.replaceChildren();
      this.#undo.push(await DRAWERS[numbersOf.kind](place, numbersOf));
      more.replaceChildren(...aboutOf(numbersOf));
      fillOnce(numbers, () => table(`${chart.title}, as a table`, numbersOf.table.header, written(numbersOf.table.rows)));
      place.dataset.drawn = "yes";
    } catch (refusal) {
      place.replaceChildren(el("p", { class: "stop", text: refusal.words ?? refusal.message }));
    }
  }
}

/** Everything that is only a line or a shade in the drawing, in words. */
function aboutOf(chart) {
  const told = [...(chart.limits ?? []), ...(chart.marks ?? []), ...(chart.bands ?? [])].map((each) => each.words);
  const notes = (chart.notes ?? []).map((text) => el("p", { class: "quiet", text }));
  if (!told.length) return notes;
  const list = el("ul", {}, ...told.map((text) => el("li", { text })));
  return [...notes, el("details", { class: "in-words" }, el("summary", { text: "What is marked in it" }), list)];
}

const written = (rows) => rows.map((row) => row.map((cell) => (cell === null ? "" : String(cell))));

function fillOnce(details, make) {
  details.addEventListener("toggle", () => details.open && details.childElementCount === 1 && details.append(make()));
}

function whenNear(card, act) {
  const watch = new IntersectionObserver(
    (entries) => {
      if (!entries.some((entry) => entry.isIntersecting)) return;
      watch.disconnect();
      act();
    },
    { rootMargin: NEAR },
  );
  watch.observe(card);
}
