import { el } from "../dom.js";
import { asking } from "./asking.js";
import { nth } from "./progress.js";
import { endOf, timerWords } from "./times.js";
import { asWeighed } from "./typed.js";

const LABELS = { mass: "or what it really was", level: "or as it was read", words: "or in your words" };

/** What a step plans, given what went before: B follows A, a mix is the sum of both. @param {any} step @param {any[]} entries @param {any} units */
export function planned(step, entries, units) {
  const count = Number(step.id.split(".")[1]);
  const [a, b] = ["weigh_a", "weigh_b"].map((kind) => nth(entries, step.pour, kind, count)?.value ?? null);
  if (step.ratio !== null && a !== null) {
    const wanted = asWeighed(a * step.ratio, units);
    if (Math.abs(wanted.value - step.value) > units.scale_step_kg / 2) return { ...wanted, why: `for the A that really went in, not the plan's ${step.big}` };
  }
  if (step.id.endsWith(".mixed") && a !== null && b !== null) return { value: Number((a + b).toFixed(9)), shown: null, why: "" };
  return { value: null, shown: null, why: "" };
}

/** Show timers, with their ends as times of day. @param {any[]} timers @param {any[]} entries @param {import("./times.js").Clock} clock @param {string} name */
export function timerList(timers, entries, clock, name) {
  const rows = timers.map((timer) => [timer, endOf(timer, entries)]).filter(([, end]) => end !== null);
  if (!rows.length) return null;
  const list = el("ul", { class: "bench-timers", "aria-label": name });
  for (const [timer, end] of rows) {
    const said = timerWords(timer, end, clock);
    const left = el("span", { class: "left", text: said.left });
    const line = el("li", { class: said.late ? "stop" : "" }, el("span", { text: `${timer.words} ` }), el("strong", { text: said.when }), left);
    list.append(line);
    line.tick = () => {
      const now = timerWords(timer, end, clock);
      line.className = now.late ? "stop" : "";
      left.textContent = now.left;
    };
  }
  return list;
}

const items = (texts, kind) => (texts.length ? el("ul", { class: kind }, ...texts.map((text) => el("li", { text }))) : null);

/**
 * The one step that is to be done.
 * @param {any} step
 * @param {{told: any, entries: any[], clock: import("./times.js").Clock, enter: (given: any, shown?: string) => Promise<void>}} bench
 */
export function card(step, { told, entries, clock, enter }) {
  const now = planned(step, entries, told.units);
  const press = (button, i) => {
    const value = i === 0 && now.value !== null ? now.value : button.value;
    const label = i === 0 && now.shown ? `So much: ${now.shown}` : button.label;
    const shown = button.kind.startsWith("weigh") || button.kind === "level" ? (now.shown ?? step.big) : "";
    const given = { step: step.id, pour: step.pour, kind: button.kind, text: button.text, value };
    return el("button", { type: "button", class: i === 0 ? "first" : "", text: label, onclick: () => enter(given, value === null ? "" : shown) });
  };
  const typed = step.ask
    ? asking(told, step.ask, { kind: step.ask_kind, label: LABELS[step.ask] }, (said, shown) => {
        const given = { step: step.id, pour: step.pour, kind: step.ask_kind, text: step.ask_text, value: said };
        return enter(step.ask === "words" ? { ...given, text: said, value: null } : given, shown);
      })
    : null;
  const over = { step: step.id, pour: step.pour, kind: "step", text: step.passed, value: null };
  return [
    el("h2", { id: "bench-head", tabindex: "-1", text: step.head }),
    step.big ? el("p", { class: "bench-big", text: now.shown ?? step.big }) : null,
    now.why ? el("p", { class: "warn", text: now.why }) : null,
    timerList(step.timers, entries, clock, "Times of this step"),
    items(step.cautions, "bench-cautions"),
    items(step.lines, "bench-lines"),
    el("div", { class: "bench-buttons" }, ...step.buttons.map(press)),
    typed,
    step.passed ? el("button", { type: "button", class: "bench-over", text: "Leave this out", onclick: () => enter(over) }) : null,
  ];
}
