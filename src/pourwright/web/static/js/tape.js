import { el, svg, table } from "./dom.js";
import { ending, removed, replaced, split } from "./tape_bands.js";
import { Layout, filled, handle, patterns, readings, still } from "./tape_draw.js";
import { BandFields } from "./tape_fields.js";

const SAVED_AFTER = 700;
const KEYS = { ArrowUp: ["step_m", 1], ArrowDown: ["step_m", -1], PageUp: ["page_m", 1], PageDown: ["page_m", -1] };

/** Bands beside a tape measure. @param {HTMLElement} root @param {import("./desk.js").Desk} desk */
export function mount(root, desk) {
  const part = new TapePart(root, desk);
  // nobody waits for it: the rest of the page is there before it
  part.load();
  desk.on("choices", () => part.changedElsewhere());
  desk.on("answers", (told) => part.answered(told));
}

const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

class TapePart {
  #root;
  #desk;
  #tape = null;
  #bands = [];
  #seen = [];
  #heights = [];
  #fill = null;
  #refused = null;
  #fields = [];
  #busy = false;
  #wanted = null;
  #idle = [];
  #timer = 0;
  #signal = 0;
  #unsaved = false;
  #telling = false;

  constructor(root, desk) {
    this.#root = root;
    this.#desk = desk;
    this.drawing = svg("svg", { class: "tape-drawing", role: "group", "aria-label": "Section of the piece with its bands, beside a tape measure" });
    this.list = el("ol", { class: "tape-list", reversed: true });
    this.totals = el("div", { class: "tape-totals" });
    this.state = el("p", { class: "tape-state", role: "status" });
    this.back = el("button", { type: "button", class: "quiet", text: "Put back", hidden: true, onclick: () => this.#putBack() });
    this.twin = el("details", {}, el("summary", { text: "All bands as a table" }));
    this.colours = el("datalist", { id: "tape-colours" });
    const left = el("div", { class: "tape-left" }, this.drawing, el("p", { class: "tape-hint quiet", text: "Drag a border, or choose it and use the arrow keys; page up and down go farther." }));
    const right = el("div", { class: "tape-right" }, this.list, this.totals, el("div", { class: "tape-foot" }, this.state, this.back), this.twin);
    this.body = el("div", { class: "tape-body" }, left, right, this.colours);
    this.none = el("p", { class: "quiet" });
    new ResizeObserver(() => this.#draw()).observe(this.drawing);
  }

  /** What this part has saved itself it knows already. */
  changedElsewhere() {
    if (!this.#telling) this.load();
  }

  /** Take the bands of the file; what is drawn stays while nothing of it has changed. */
  async load(anew = false) {
    const seen = this.#seen;
    const { tape, error } = await this.#desk.get("tape.json").catch((wrong) => ({ tape: null, error: wrong }));
    if (!tape) {
      this.#absent(error);
      return;
    }
    // saved while it was on its way: what came is older than what is drawn
    if (!anew && this.#seen !== seen) return this.load();
    const bands = tape.bands.length ? tape.bands : [{ to: "top", neat: true }];
    const fresh = !this.#tape || !same({ ...tape, bands: 0 }, { ...this.#tape, bands: 0 });
    const shown = same(tape.bands, this.#seen) || same(tape.bands, this.#bands);
    if (!anew && this.#fill && (this.#dragging || (!fresh && shown))) return;
    this.#seen = tape.bands;
    this.#tape = tape;
    this.colours.replaceChildren(...tape.colours.map((value) => el("option", { value })));
    this.#root.replaceChildren(this.body);
    await this.#change(bands, { rebuild: true });
    this.#say("");
  }

  /** The shape may have been read, or the job mended, since the tape could not be drawn. */
  answered(told) {
    if (!this.#tape && told.state === "ready") this.load();
  }

  #absent(error) {
    this.none.textContent = `No bands to show: ${error.words ?? sentence(error)}`;
    // what was drawn before stays, for the job is mended in a moment
    if (this.#tape) this.#say(this.none.textContent, true);
    else this.#root.replaceChildren(this.none);
  }

  get #dragging() {
    return Boolean(this.drawing.querySelector(".tape-dragged"));
  }

  /** Take other bands and ask what they need. */
  #change(bands, { rebuild = false, started = performance.now() } = {}) {
    this.#bands = bands;
    if (rebuild) this.#build();
    return this.#try(started);
  }

  /** One request in flight; what came meanwhile is asked as one. */
  #try(started) {
    this.#wanted = { bands: this.#bands, started };
    const done = new Promise((resolve) => this.#idle.push(resolve));
    if (!this.#busy) this.#work();
    return done;
  }

  async #work() {
    this.#busy = true;
    while (this.#wanted) {
      const { bands, started } = this.#wanted;
      this.#wanted = null;
      try {
        this.#told(await this.#desk.send("trial.json", { bands }), bands);
        performance.measure("tape", { start: started, end: performance.now() });
      } catch (error) {
        this.#refused = { what: error.words ?? String(error), band: null };
        this.#show();
      }
    }
    this.#busy = false;
    this.#idle.splice(0).forEach((resolve) => resolve());
  }

  #told(trial, bands) {
    this.#refused = trial.error;
    if (trial.fill) {
      this.#fill = trial.fill;
      const own = trial.fill.bands.filter((band) => band.number !== null || bands.length === 1);
      if (bands === this.#bands) this.#heights = bands.map((_, place) => this.#topOf(own, place, bands.length));
    }
    this.#show();
    this.#draw();
  }

  #topOf(own, place, count) {
    return place === count - 1 ? this.#tape.height_m : (own[place]?.upper.m ?? 0);
  }

  #build() {
    const focus = this.#focused();
    const count = this.#bands.length;
    this.#fields = this.#bands.map((band, place) => {
      const about = { place, last: place === count - 1, alone: count === 1, to: typeof band.to === "string" ? band.to : "" };
      return new BandFields(this.#tape, band, about, {
        change: (next, rebuild) => this.#edit(replaced(this.#bands, place, next), rebuild),
        split: () => this.#edit(split(this.#bands, place, place ? this.#heights[place - 1] : 0, this.#heights[place]), true),
        remove: () => this.#edit(removed(this.#bands, place), true),
      });
    });
    this.list.replaceChildren(...this.#fields.map((one) => one.root).reverse());
    if (focus) this.list.querySelector(`[data-place="${focus.place}"] [data-name="${focus.name}"]`)?.focus();
  }

  #focused() {
    const now = document.activeElement;
    if (!this.list.contains(now)) return null;
    return { place: now.closest("[data-place]").dataset.place, name: now.dataset.name };
  }

  /** A choice in a field: tried, then saved. */
  async #edit(bands, rebuild = false) {
    // what was said is of the choice before
    this.#say("");
    await this.#change(bands, { rebuild });
    if (rebuild) this.#build();
    this.#fields.forEach((one, place) => (one.band = this.#bands[place]));
    this.#show();
    await this.#save();
  }

  #show() {
    const own = this.#own;
    this.#fields.forEach((one, place) => {
      const mine = this.#refused && (this.#refused.band === place + 1 || (this.#refused.band === null && place === 0));
      one.show(own[place], this.#tape.flipped, mine ? sentence(this.#refused) : "");
    });
    if (!this.#fill) return;
    this.totals.replaceChildren(...totals(this.#fill));
    this.twin.replaceChildren(this.twin.firstChild, twin(this.#fill, this.#tape.flipped));
  }

  get #own() {
    const bands = this.#fill?.bands ?? [];
    return this.#bands.length === 1 ? bands.slice(0, 1) : bands.filter((band) => band.number !== null);
  }

  #draw() {
    const width = this.drawing.clientWidth;
    if (!width || !this.#fill || this.#heights.length !== this.#bands.length) return;
    const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
    const tallest = Math.min(36 * rem, Math.max(window.innerHeight - 9 * rem, 16 * rem));
    const letters = Math.max(...this.#fill.bands.flatMap((band) => [band.upper.text.length, band.upper.standing_text.length]));
    this.at = new Layout(this.#tape, width, rem, tallest, Math.max(letters, 7));
    this.drawing.classList.toggle("tape-narrow", this.at.narrow);
    const { clip, outline, tape } = still(this.at);
    const old = new Map([...this.drawing.querySelectorAll(".tape-border")].map((one) => [one.dataset.border, one]));
    const borders = this.#heights.slice(0, -1).map((_, place) => this.#border(place, old.get(String(place))));
    const parts = [patterns(), clip, filled(this.at, this.#layers()), outline, tape, svg("g", { class: "tape-readings", "aria-hidden": "true" }, ...readings(this.at, this.#marks()))];
    this.drawing.setAttribute("viewBox", `0 0 ${width} ${this.at.height}`);
    this.drawing.style.height = `${this.at.height}px`;
    for (const child of [...this.drawing.children]) if (!borders.includes(child)) child.remove();
    this.drawing.prepend(...parts);
    for (const border of borders) if (border.parentNode !== this.drawing) this.drawing.append(border);
  }

  /** What lies where, with borders where they are just now. */
  #layers() {
    const own = this.#own;
    const cover = this.#fill.bands.at(-1);
    const covered = cover.number === null && this.#fill.bands.length > own.length;
    const top = covered ? cover.lower.m : this.#tape.height_m;
    const layers = this.#heights.map((upper, place) => ({
      tone: own[place]?.tone ?? "none",
      pattern: own[place]?.pattern ?? "",
      lower: place ? this.#heights[place - 1] : 0,
      upper: place === this.#heights.length - 1 ? top : upper,
    }));
    return covered ? [...layers, { ...cover, lower: top, upper: this.#tape.height_m }] : layers;
  }

  #marks() {
    const bands = this.#fill.bands;
    const ends = [bands[0].lower, ...bands.map((band) => band.upper)];
    const at = [0, ...this.#heights.slice(0, -1), ...ends.slice(this.#heights.length).map((end) => end.m)];
    const marks = ends.map((end, number) => ({ up: at[number] ?? end.m, left: end.text, right: end.standing_text }));
    return marks.reverse();
  }

  #border(place, old) {
    const border = old ?? this.#dragged(handle(this.at, place), place);
    const fresh = handle(this.at, place);
    border.replaceChildren(...fresh.childNodes);
    border.setAttribute("transform", `translate(0 ${this.at.y(this.#heights[place]).toFixed(1)})`);
    const end = this.#own[place]?.upper;
    const [low, high] = this.#limits(place);
    const text = end ? [`${end.text} up from the floor of the mold`, this.#tape.flipped ? `${end.standing_text} as it stands` : "", `dip ${end.dip_text} down from the rim`] : [];
    const given = {
      "aria-label": `Upper end of band ${place + 1}`,
      "aria-valuemin": millimetres(low),
      "aria-valuemax": millimetres(high),
      "aria-valuenow": millimetres(this.#heights[place]),
      "aria-valuetext": text.filter(Boolean).join(", "),
    };
    for (const [name, value] of Object.entries(given)) border.setAttribute(name, value);
    return border;
  }

  #limits(place) {
    const step = this.#tape.step_m;
    return [(place ? this.#heights[place - 1] : 0) + step, this.#heights[place + 1] - step];
  }

  #dragged(border, place) {
    border.addEventListener("pointerdown", (event) => {
      event.preventDefault();
      border.focus();
      border.setPointerCapture(event.pointerId);
      border.classList.add("tape-dragged");
      this.off = this.#heights[place] - this.#pointed(event);
    });
    border.addEventListener("pointermove", (event) => {
      if (border.classList.contains("tape-dragged")) this.#move(place, this.#pointed(event) + this.off, event.timeStamp);
    });
    for (const name of ["pointerup", "pointercancel"]) {
      border.addEventListener(name, () => {
        if (!border.classList.contains("tape-dragged")) return;
        border.classList.remove("tape-dragged");
        this.#save();
      });
    }
    border.addEventListener("keydown", (event) => this.#pressed(event, place));
    border.addEventListener("blur", () => this.#saveSoon(0));
    return border;
  }

  #pointed(event) {
    return this.at.up(event.clientY - this.drawing.getBoundingClientRect().top);
  }

  #pressed(event, place) {
    const [low, high] = this.#limits(place);
    const to = { Home: low, End: high }[event.key] ?? this.#stepped(event.key, place);
    if (to === undefined) return;
    event.preventDefault();
    this.#move(place, to, event.timeStamp);
    this.#saveSoon(SAVED_AFTER);
  }

  #stepped(key, place) {
    if (!(key in KEYS)) return undefined;
    const [step, way] = KEYS[key];
    return this.#heights[place] + way * this.#tape[step];
  }

  #move(place, to, started) {
    const [low, high] = this.#limits(place);
    const step = this.#tape.step_m;
    const height = Math.min(Math.max(Math.round(to / step) * step, low), high);
    if (high < low || Math.abs(height - this.#heights[place]) < step / 100) return;
    this.#heights[place] = height;
    this.#unsaved = true;
    this.#say("");
    this.#draw();
    this.#change(replaced(this.#bands, place, ending(this.#bands[place], height)), { started });
    this.#fields[place].band = this.#bands[place];
  }

  #saveSoon(after) {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#unsaved && !this.#dragging && this.#save(), after);
  }

  /** Write the bands once all that was tried is answered. */
  async #save() {
    clearTimeout(this.#timer);
    const mine = (this.#signal += 1);
    if (this.#busy) await new Promise((resolve) => this.#idle.push(resolve));
    if (mine !== this.#signal) return;
    this.#unsaved = false;
    if (this.#refused) {
      this.#say(`Not saved: ${this.#refused.what}`, true);
      return;
    }
    const own = this.#own;
    const bands = this.#bands.map((band, place) => (typeof band.to === "number" ? ending(band, own[place].written) : band));
    if (same(bands, this.#seen)) {
      this.#say("");
      return;
    }
    this.#bands = bands;
    this.#fields.forEach((one, place) => (one.band = bands[place]));
    await this.#write(bands);
  }

  async #write(bands) {
    try {
      const told = await this.#desk.send("choices", { bands, seen: this.#seen });
      this.#seen = bands;
      this.#say("Saved");
      this.#telling = true;
      this.#desk.tell("choices", told);
      this.#telling = false;
    } catch (error) {
      this.#say(`Not saved: ${error.words ?? error}`, true);
    }
  }

  #putBack() {
    this.load(true);
  }

  #say(text, wrong = false) {
    this.state.textContent = text;
    this.state.classList.toggle("stop", wrong);
    this.back.hidden = !wrong;
  }
}

const millimetres = (metres) => Math.round(metres * 10000) / 10;

function sentence(wrong) {
  return [wrong.what, wrong.allowed && `allowed: ${wrong.allowed}`, wrong.todo && `next: ${wrong.todo}`].filter(Boolean).join("; ");
}

function totals(fill) {
  const list = el("dl", { class: "numbers" });
  for (const one of fill.totals) list.append(el("dt", { text: one.label }), el("dd", { "data-key": one.key, text: one.text }));
  return [
    list,
    ...fill.stops.map((text) => el("p", { class: "stop", text: `Stop: ${text}` })),
    ...fill.warnings.map((text) => el("p", { class: "warn", text: `Mind: ${text}` })),
  ];
}

function twin(fill, flipped) {
  const heads = ["band", "glass", "from", "to", ...(flipped ? ["from, as it stands", "to, as it stands"] : []), "dip to its top", "glass", "resin", "to mix", "bottles", "batches"];
  const rows = fill.bands.map((band) => [
    band.name,
    band.called,
    band.lower.text,
    band.upper.text,
    ...(flipped ? [band.lower.standing_text, band.upper.standing_text] : []),
    band.upper.dip_text,
    band.glass_text || "none",
    band.resin_text,
    band.mixed_text,
    band.bottles_text || "none",
    String(band.batches),
  ]);
  return table("All bands", heads, rows);
}
