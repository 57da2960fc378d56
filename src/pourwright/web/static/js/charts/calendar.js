import { el } from "../dom.js";

const share = (part) => `${(100 * part).toFixed(3)}%`;

/** Put something along the line of days. @param {HTMLElement} made @param {{from: number, to: number}} told */
function along(made, told) {
  made.style.left = share(told.from);
  made.style.width = share(told.to - told.from);
  return made;
}

/** The same for words, as wide as they are. @param {HTMLElement} made @param {{from: number}} told */
function from(made, told) {
  made.style.left = share(told.from);
  return made;
}

/**
 * Draw the calendar: a list of what is done, each with its bar over the nights.
 * @param {HTMLElement} place
 * @param {object} chart as `charts/calendar.json` gives it
 */
export async function drawCalendar(place, chart) {
  const ground = el("div", { class: "ground", "aria-hidden": "true" });
  ground.append(...chart.shades.map((shade) => along(el("i", { class: shade.kind }), shade)));
  ground.append(...chart.days.map((day) => along(el("i", { class: "day" }), day)));
  ground.append(...chart.breaks.map((each) => along(el("i", { class: "torn" }), each)));
  const rows = el("ol", { class: "rows" }, ...chart.rows.map((row) => rowOf(row, chart.kinds)));
  const names = days(chart);
  place.append(el("div", { class: "calendar" }, legend(chart), el("div", { class: "line" }, ground, names, rows)));
  const room = new ResizeObserver(() => thin(names));
  room.observe(names);
  return () => room.disconnect();
}

/** Leave out names that would run into others, those of days last. @param {HTMLElement} names */
function thin(names) {
  const taken = [];
  const torn = (name) => name.classList.contains("torn-name");
  for (const name of [...names.children].sort((a, b) => torn(a) - torn(b))) {
    const [left, right] = [name.offsetLeft, name.offsetLeft + name.scrollWidth + 2];
    const spare = taken.some(([from, to]) => left < to && from < right);
    name.classList.toggle("spare", spare);
    if (!spare) taken.push([left, right]);
  }
}

function days(chart) {
  const row = el("div", { class: "days", "aria-hidden": "true" });
  for (const day of chart.days) row.append(from(el("span", { class: "name", title: day.words }, ...named(day)), day));
  for (const each of chart.breaks) row.append(from(el("span", { class: "name torn-name", title: each.words, text: `+${each.days}` }), each));
  return row;
}

function named(day) {
  const [name, number] = day.short.split(" ");
  return [el("span", { class: "weekday", text: name }), el("b", { text: number })];
}

function rowOf(row, kinds) {
  const bar = along(el("i", { class: `bar ${row.kind}` }), row);
  return el(
    "li",
    { class: row.kind },
    el("span", { class: "what" }, el("b", { text: row.title }), el("span", { class: "when" }, row.when, el("span", { class: "quiet", text: `, ${row.takes}` }))),
    el("span", { class: "detail quiet", text: row.detail }),
    el("span", { class: "track", role: "img", "aria-label": kinds[row.kind] }, bar),
  );
}

function legend(chart) {
  const used = Object.entries(chart.kinds).filter(([kind]) => chart.rows.some((row) => row.kind === kind));
  const shades = [["night", "the shop is closed"], ["off", "a day off"]].filter(([kind]) => chart.shades.some((shade) => shade.kind === kind));
  const torn = chart.breaks.length ? [["torn", chart.breaks.map((each) => each.words).join(", ")]] : [];
  const entry = ([kind, words], sort) => el("li", {}, el("i", { class: `${sort} ${kind}`, "aria-hidden": "true" }), el("span", { text: words }));
  return el("ul", { class: "key" }, ...used.map((each) => entry(each, "bar")), ...[...shades, ...torn].map((each) => entry(each, "patch")));
}
