import { el, svg } from "../dom.js";
import { onShade, pen } from "./ink.js";
import { Panel } from "./panel.js";
import { Reader } from "./reader.js";

/**
 * Draw a chart of lines: one panel for each upright axis, one reading for all of them.
 * @param {HTMLElement} place
 * @param {object} chart as `charts/NAME.json` gives it
 * @returns {Promise<() => void>} takes it away again
 */
export async function drawLines(place, chart) {
  const { default: uPlot } = await import("../../built/uplot.js");
  const hidden = new Set();
  const drawn = el("div", { class: "panels" });
  const reader = new Reader(chart, drawn, hidden);
  const key = el("ul", { class: "key", "aria-label": "Lines" });
  place.append(key, drawn, reader.place);
  let panels = [];

  const draw = () => {
    for (const panel of panels) panel.end();
    drawn.replaceChildren();
    panels = chart.axes.map((axis, i) => new Panel(uPlot, drawn, chart, axis, hidden, i === chart.axes.length - 1, (at) => reader.point(at)));
    reader.show = (at) => panels.forEach((panel) => panel.cursor(at));
    key.replaceChildren(...chart.series.map((series, i) => entry(series, i, hidden, draw)));
    reader.again();
  };
  draw();
  const widths = new ResizeObserver(() => panels.forEach((panel) => panel.fit()));
  widths.observe(place);
  const shade = onShade(draw);
  return () => {
    widths.disconnect();
    shade();
    for (const panel of panels) panel.end();
  };
}

function entry(series, index, hidden, draw) {
  const box = el("input", {
    type: "checkbox",
    checked: !hidden.has(series.key),
    onchange: () => {
      if (box.checked) hidden.delete(series.key);
      else hidden.add(series.key);
      draw();
    },
  });
  box.id = `line-${series.key}`;
  return el("li", {}, el("label", { for: box.id }, box, swatch(series.key, index), el("span", { text: series.words })));
}

function swatch(key, index) {
  const { stroke, width, dash } = pen(key, index);
  const line = svg("line", { x1: 0, y1: 8, x2: 56, y2: 8, stroke, "stroke-width": width, "stroke-dasharray": dash.join(" ") });
  return svg("svg", { class: "swatch", viewBox: "0 0 56 16", "aria-hidden": "true" }, line);
}
