import { card, timerList } from "./bench/card.js";
import { logList, refusedList } from "./bench/log.js";
import { pressId, uuid } from "./bench/made.js";
import { more } from "./bench/more.js";
import { lastPour, left, standing } from "./bench/progress.js";
import { ask, Sending } from "./bench/sending.js";
import { Clock } from "./bench/times.js";
import { Waiting } from "./bench/waiting.js";
import { el } from "./dom.js";

const LOOK_AGAIN = 20_000;
const place = (id) => document.getElementById(id);
const counted = (count, one, many) => (count === 1 ? `1 ${one}` : `${count} ${many}`);

/** One job at the bench. */
class Bench {
  /** @param {HTMLElement} root */
  constructor(root) {
    this.root = root;
    this.waiting = new Waiting(root.dataset.job);
    this.sending = new Sending(this.waiting, (path) => this.#url(path), { done: () => this.look(), failed: (refusal) => this.#failed(refusal) });
    this.told = JSON.parse(place("bench-told").textContent);
    this.clock = new Clock(this.told.time_zone, this.told.clock);
    this.#hear(this.told, Date.now(), Date.now());
    this.away = "";
    this.entering = 0;
    this.shown = {};
    this.awake = null;
  }

  #url(path) {
    return `/jobs/${encodeURIComponent(this.root.dataset.job)}/${path}`;
  }

  #hear(told, asked, answered) {
    this.told = told;
    this.clock.set(told.now, asked, answered);
    this.waiting.told(new Set(told.entries.map((one) => one.id)));
  }

  /** Everything that was entered, here or elsewhere, corrected ones too. */
  get every() {
    const there = new Set(this.told.entries.map((one) => one.id));
    const ours = this.waiting.held.filter((one) => !one.refused && !there.has(one.entry.id) && one.entry.casting === this.told.casting);
    const local = ours.map((one) => ({ ...one.entry, what: this.told.kinds[one.entry.kind], shown: one.shown, waits: !one.sent, corrected_by: null }));
    const newer = new Map(local.filter((one) => one.replaces).map((one) => [one.replaces, one.id]));
    const all = [...this.told.entries, ...local].map((one) => ({ ...one, corrected_by: one.corrected_by ?? newer.get(one.id) ?? null }));
    return all.sort((one, other) => Date.parse(one.at) - Date.parse(other.at));
  }

  /** The pour that something belongs to that is entered besides. */
  get pour() {
    return lastPour(standing(this.every)) || 1;
  }

  /** Begin: what waits from before, then what the laptop knows. */
  async begin() {
    await this.waiting.open();
    this.show();
    place("bench-more").append(...more(this));
    await this.sending.go();
    this.root.dataset.ready = "yes";
    setInterval(() => document.visibilityState === "visible" && this.sending.go(), LOOK_AGAIN);
    setInterval(() => this.#tick(), 1000);
    addEventListener("online", () => this.sending.go());
    document.addEventListener("visibilitychange", () => this.#seen());
    addEventListener("beforeunload", (event) => (this.entering || this.waiting.unsent.length) && event.preventDefault());
  }

  #seen() {
    if (document.visibilityState !== "visible") return;
    this.#tick();
    this.sending.go();
    this.#stayAwake();
  }

  #id(step) {
    if (!step) return uuid();
    const { job, variant, casting } = this.told;
    const taken = new Set([...this.told.entries, ...this.waiting.held.map((one) => one.entry)].map((one) => one.id));
    return pressId({ job, variant, casting, step }, taken);
  }

  /** Enter something, at a step or besides: held on the phone first, then shown, then sent. */
  async enter({ step, ...given }, shown = "", photo = undefined) {
    const { plan, casting } = this.told;
    const now = new Date(Math.round(this.clock.now())).toISOString();
    const entry = { id: this.#id(step), plan, casting, at: now, text: "", value: null, ...given };
    await this.#hold(entry, shown, photo);
    this.show();
    place("bench-head")?.focus();
    place("bench-said").textContent = `${[this.told.kinds[entry.kind], shown].filter(Boolean).join(", ")}: entered`;
    this.#stayAwake();
    await this.sending.go();
  }

  /** Keep it on the phone; until it lies there the page says neither that it waits nor that all is on the laptop. */
  async #hold(entry, shown, photo) {
    this.entering += 1;
    this.#state();
    try {
      await this.waiting.add(entry, shown, photo);
    } finally {
      this.entering -= 1;
      this.#state();
    }
  }

  /** Send a refused one again, said to be another one. */
  async again(one) {
    const { plan } = this.told;
    one.entry = { ...one.entry, id: uuid(), plan, again: true };
    await this.waiting.mark(one, null);
    this.show();
    await this.sending.go();
  }

  /** Put a refused one away. */
  async forget(one) {
    await this.waiting.forget(one);
    this.show();
  }

  /** Ask what the laptop knows. */
  async look() {
    const asked = Date.now();
    const told = await ask(`${this.#url("bench.json")}?variant=${encodeURIComponent(this.told.variant)}&casting=${this.told.casting}`);
    this.#hear(told, asked, Date.now());
    this.away = "";
    this.show();
  }

  #failed(refusal) {
    this.away = refusal.status === 0 ? "No answer from the laptop" : refusal.words;
    this.show();
  }

  async #stayAwake() {
    // only where the browser lets a page do so: on the laptop itself, or over https
    if (this.awake && !this.awake.released) return;
    try {
      this.awake = await navigator.wakeLock?.request("screen");
    } catch {
      // low battery
    }
  }

  /** Show all of it anew where anything has changed. */
  show() {
    const every = this.every;
    this.#state();
    const entries = standing(every);
    // what is half typed stays as long as nothing else was entered
    if (this.#isNew("step", [this.told.plan, this.told.casting, entries.map((one) => one.id)])) this.#step(entries);
    const refused = this.waiting.refused;
    if (this.#isNew("refused", refused.map((one) => [one.entry.id, one.refused])))
      place("bench-refused").replaceChildren(...(refused.length ? [refusedList(refused, this)] : []));
    if (!this.#isNew("log", every)) return;
    place("bench-log").replaceChildren(logList(every, this));
    this.#undo(entries);
  }

  #isNew(part, said) {
    const text = JSON.stringify(said);
    const other = this.shown[part] !== text;
    this.shown[part] = text;
    return other;
  }

  #step(entries) {
    const steps = left(this.told.steps, entries);
    place("bench-now").replaceChildren(...(steps.length ? card(steps[0], { ...this.asked, entries }) : this.#over()).filter(Boolean));
    this.#clocks(steps.slice(1), entries);
  }

  /** Where an entry is corrected. */
  get correcting() {
    return place("bench-correct");
  }

  /** What a step is given to enter by. */
  get asked() {
    return { told: this.told, clock: this.clock, enter: (given, shown) => this.enter(given, shown) };
  }

  #clocks(steps, entries) {
    const timers = steps.flatMap((step) => step.timers);
    const list = timerList(timers, entries, this.clock, "Other times");
    place("bench-clocks").replaceChildren(...(list ? [el("h2", { text: "Other times" }), list] : []));
  }

  #undo(entries) {
    const last = [...entries].reverse().find((one) => (one.source === "bench" || one.waits) && !one.text.startsWith("taken back"));
    const button = place("bench-undo");
    button.hidden = !last;
    if (button.hidden) return;
    const said = [last.what, last.shown].filter(Boolean).join(" ");
    button.textContent = `Undo: ${said}`;
    button.onclick = () => this.enter({ pour: last.pour, kind: "note", text: `taken back: ${said}`, replaces: last.id });
  }

  #over() {
    const next = `?variant=${encodeURIComponent(this.told.variant)}&casting=${this.told.last_casting}`;
    return [
      el("h2", { id: "bench-head", tabindex: "-1", text: "All of it is done" }),
      el("p", { text: `Piece ${this.told.casting} of this job is out of its mold.` }),
      this.told.last_casting > this.told.casting ? el("a", { class: "button first", href: next, text: "Begin the next piece" }) : null,
    ];
  }

  #state() {
    const count = this.waiting.unsent.length;
    const kept = count ? `${counted(count, "entry waits", "entries wait")} on this phone` : "All that was entered is on the laptop";
    const waits = this.entering ? "Keeping it on this phone" : kept;
    const disk = this.waiting.safe ? "" : "This browser keeps nothing on its disk: leave this page open. ";
    const off = Math.abs(this.clock.off) > 2 ? ` This device's clock is ${Math.abs(this.clock.off)} min off; the times here follow the laptop's.` : "";
    const state = place("bench-state");
    const words = `${this.away ? `${this.away}. ` : ""}${disk}${waits}.${this.away && count ? " They are sent as soon as it answers; leave this page open." : ""}${off}`;
    if (state.textContent !== words) state.textContent = words;
    state.className = this.away ? "bench-state away" : "bench-state";
    this.root.dataset.waiting = String(count);
  }

  #tick() {
    for (const line of document.querySelectorAll(".bench-timers li")) line.tick?.();
  }
}

const bench = new Bench(place("bench"));
await bench.begin();
