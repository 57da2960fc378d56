import { el } from "../dom.js";
import { asking } from "./asking.js";
import { bare } from "./progress.js";

const MASSES = ["weigh_a", "weigh_b", "mixed", "poured", "caught", "topped_up", "clung"];
/** What may be typed instead of an entry that has a number. */
const ASKS = new Map([...MASSES.map((kind) => [kind, "mass"]), ["level", "level"], ["no_level", "level"], ["temperature", "temperature"]]);

function line(entry, clock) {
  const said = [entry.what, entry.shown, entry.text].filter(Boolean).join(", ");
  const marks = [entry.waits ? "waits" : "", entry.corrected_by ? "corrected" : ""].filter(Boolean).join(", ");
  const text = el(entry.corrected_by ? "s" : "span", { text: said });
  return [el("time", { datetime: entry.at, text: clock.say(Date.parse(entry.at)) }), text, marks ? el("em", { text: marks }) : null];
}

function changes(entry, bench) {
  const kind = entry.kind === "no_level" ? "level" : entry.kind;
  const same = { pour: entry.pour, replaces: entry.id };
  const ask = ASKS.get(entry.kind);
  const correct = () => {
    const form = asking(bench.told, ask, { kind, label: `${entry.what}: what it really was` }, async (value, shown) => {
      form.remove();
      await bench.enter({ ...same, kind, at: entry.at, text: bare(entry.text, bench.told.pressed), value }, shown);
    });
    // beside the list, which is made anew whenever something comes in
    bench.correcting.replaceChildren(form);
    form.querySelector("input").focus();
  };
  const back = () => bench.enter({ ...same, kind: "note", text: `taken back: ${[entry.what, entry.shown, entry.text].filter(Boolean).join(", ")}`, value: null });
  const name = el("span", { class: "visually-hidden", text: ` ${entry.what} ${entry.shown}` });
  return el(
    "div",
    { class: "bench-buttons" },
    ask ? el("button", { type: "button", onclick: correct }, "Correct", name.cloneNode(true)) : null,
    el("button", { type: "button", onclick: back }, "Take back", name),
  );
}

/** All that was entered, the latest first; what is corrected keeps its old value. @param {any[]} entries @param {any} bench */
export function logList(entries, bench) {
  const list = el("ol", { class: "bench-log", reversed: true });
  for (const entry of [...entries].reverse()) {
    const item = el("li", {}, ...line(entry, bench.clock));
    if (!entry.corrected_by) item.append(changes(entry, bench));
    list.append(item);
  }
  return list;
}

/** What the server does not take, and what may be done about it. @param {any[]} refused @param {any} bench */
export function refusedList(refused, bench) {
  return el(
    "ul",
    { class: "bench-refused" },
    ...refused.map((one) =>
      el(
        "li",
        {},
        el("p", { class: "stop", text: `Not taken: ${[one.shown, one.entry.text].filter(Boolean).join(", ") || one.entry.kind}. ${one.refused.what}` }),
        one.refused.todo ? el("p", { class: "quiet", text: one.refused.todo }) : null,
        el(
          "div",
          { class: "bench-buttons" },
          el("button", { type: "button", text: "It is another one: enter it", onclick: () => bench.again(one) }),
          el("button", { type: "button", text: "Put it away", onclick: () => bench.forget(one) }),
        ),
      ),
    ),
  );
}
