import { el } from "../dom.js";

const LEAP = 20;

/** Reads a chart at one place: by pointer, or by the keys left and right, Home and End, Page up and down. */
export class Reader {
  #at = null;

  /** @param {object} chart @param {HTMLElement} stage takes the keys @param {Set<string>} hidden lines that are not read */
  constructor(chart, stage, hidden) {
    this.chart = chart;
    this.stage = stage;
    this.hidden = hidden;
    this.last = chart.x.values.length - 1;
    this.show = () => {};
    this.where = el("p", { class: "where", text: "Point at the chart, or go through it with the keys ← and →." });
    this.values = el("dl", { class: "numbers readings" });
    this.said = el("p", { class: "visually-hidden", "aria-live": "polite" });
    this.place = el("div", { class: "reading" }, this.where, this.values, this.said);
    this.#makeSlider();
  }

  #makeSlider() {
    const given = {
      tabindex: "0", role: "slider", "aria-label": `${this.chart.title}: ${this.chart.x.words}`,
      "aria-valuemin": "0", "aria-valuemax": String(this.last), "aria-valuenow": "0", "aria-valuetext": this.chart.x.texts[0],
    };
    for (const [name, value] of Object.entries(given)) this.stage.setAttribute(name, value);
    this.stage.addEventListener("keydown", (event) => this.#key(event));
  }

  #key(event) {
    const from = this.#at ?? -1;
    const to = {
      ArrowRight: from + 1, ArrowUp: from + 1, ArrowLeft: Math.max(from, 1) - 1, ArrowDown: Math.max(from, 1) - 1,
      PageUp: from + LEAP, PageDown: from - LEAP, Home: 0, End: this.last,
    }[event.key];
    if (to === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    this.#at = Math.min(Math.max(to, 0), this.last);
    this.show(this.#at);
    this.#write();
    this.said.textContent = this.#sentence();
  }

  /** The pointer stands there. @param {number | null} at */
  point(at) {
    if (at === null || at === undefined || at === this.#at) return;
    this.#at = at;
    this.show(at);
    this.#write();
  }

  /** The chart was drawn anew. */
  again() {
    if (this.#at !== null) {
      this.show(this.#at);
      this.#write();
    }
  }

  #read() {
    const shown = this.chart.series.filter((series) => !this.hidden.has(series.key));
    return shown.map((series) => [series.words, series.texts[this.#at] || "–"]);
  }

  #sentence() {
    return `${this.chart.x.texts[this.#at]}: ${this.#read().map(([name, text]) => `${name} ${text}`).join(", ")}`;
  }

  #write() {
    this.where.textContent = this.chart.x.texts[this.#at];
    this.values.replaceChildren(...this.#read().map(([name, text]) => el("div", {}, el("dt", { text: name }), el("dd", { text }))));
    this.stage.setAttribute("aria-valuenow", String(this.#at));
    this.stage.setAttribute("aria-valuetext", this.chart.x.texts[this.#at]);
  }
}
