import { el, table } from "../dom.js";

const share = (part) => `${(100 * Math.min(Math.max(part, 0), 1)).toFixed(2)}%`;

/**
 * Draw what matters most: a ranking for each answer, then the plans that were not taken.
 * @param {HTMLElement} place
 * @param {object} chart as `charts/matters.json` gives it
 */
export async function drawMatters(place, chart) {
  const rankings = chart.rankings.filter((each) => each.shares.length);
  if (rankings.length) place.append(key(), el("div", { class: "rankings" }, ...rankings.map(ranked)));
  if (chart.compared.length) place.append(el("h4", { text: "Other numbers of pours" }), compared(chart.compared));
  if (chart.what_if.length) place.append(el("h4", { text: "What if" }), whatIf(chart.what_if));
  return () => {};
}

function key() {
  const entry = (kind, words) => el("li", {}, el("i", { class: `share ${kind}`, "aria-hidden": "true" }), el("span", { text: words }));
  return el("ul", { class: "key" }, entry("first", "alone"), entry("total", "with its interplay, of the spread"));
}

function ranked(told) {
  const left = told.left_out ? [el("p", { class: "quiet", text: `${told.left_out} more below 1 % each` })] : [];
  return el(
    "div",
    { class: "ranking" },
    el("h4", { text: told.words }),
    el("p", { class: "answer", text: told.text }),
    el("ol", {}, ...told.shares.map(bar)),
    ...left,
    el("p", { class: "quiet", text: `Nine of ten heat runs kept apart agree within ${told.held_out}.` }),
  );
}

function bar(told) {
  const total = el("i", { class: "share total" });
  const first = el("i", { class: "share first" });
  total.style.width = share(told.total);
  first.style.width = share(told.first);
  return el(
    "li",
    {},
    el("span", { class: "what", text: told.words }),
    el("span", { class: "bars", "aria-hidden": "true" }, total, first),
    el("b", { class: "amount", text: told.text }),
    el("span", { class: "visually-hidden", text: `, alone ${told.alone}` }),
  );
}

function compared(rows) {
  const cells = rows.map((row) => [
    `${row.pours}${row.chosen ? " (chosen)" : ""}`,
    row.days_text,
    row.over || "–",
    row.text,
  ]);
  return table("Other numbers of pours", ["pours", "days", "goes over a limit", "what it comes to"], cells);
}

function whatIf(rows) {
  return el("ul", { class: "what-if" }, ...rows.map((row) => el("li", { text: row.text })));
}
