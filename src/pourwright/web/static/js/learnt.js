import { Refusal, send } from "./desk.js";
import { el } from "./dom.js";

const place = (id) => document.getElementById(id);

async function ask(change = {}) {
  place("refused").textContent = "";
  try {
    show(await send("/learnt.json", change));
  } catch (error) {
    place("learnt").replaceChildren(el("p", { class: "quiet", text: "Nothing is learnt yet." }));
    place("refused").textContent = error instanceof Refusal ? error.words : error.message;
  }
}

function line(one) {
  const back = one.in_force && !one.kept_family
    ? el("button", { type: "button", text: "Take it back", "aria-label": `Take it back: ${one.words}`, onclick: () => ask({ undo: one.number }) })
    : null;
  return el("li", {}, `${one.words} `, back);
}

function record(one) {
  const words = one.set_aside ? "count it again" : "set it aside";
  const change = one.set_aside ? { take_back: one.id } : { set_aside: one.id };
  const button = el("button", { type: "button", text: words, "aria-label": `${words}: ${one.words}`, onclick: () => ask(change) });
  return el("li", {}, `${one.words} `, button);
}

function show(report) {
  const found = report.learnt.length
    ? [el("ul", {}, ...report.learnt.map(line)), el("h2", { text: "Records" }), el("ul", {}, ...report.records.map(record))]
    : [el("p", { text: "Nothing is learnt yet: log what is mixed, poured and read, and when it gels." })];
  place("learnt").replaceChildren(...found);
}

ask();
