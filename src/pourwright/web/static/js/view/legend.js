/** Legends: classes of a tint with colour, pattern and words; the scale of the heat. */

import { el } from "../dom.js";
import { toneOf } from "./shader.js";
import { patternOf } from "./scene.js";

/** What the shader takes of a tint's classes. @param {any} tint of view.json */
export function shaded(tint) {
  return {
    ends: tint.classes.slice(0, -1).map((each) => each.below),
    tones: tint.classes.map((each) => toneOf(each.colour)),
    marks: tint.classes.map((each) => patternOf(each.pattern)),
  };
}

/** @param {string} title @param {{text: string, colour: string, pattern: string}[]} rows */
export function classes(title, rows) {
  const items = rows.map((row) => el("li", {}, swatch(row.colour, row.pattern), el("span", { text: row.text })));
  return el("div", { class: "view-legend" }, el("p", { class: "quiet", text: title }), el("ul", {}, ...items));
}

/** A small patch of a colour with its pattern. */
export function swatch(colour, pattern) {
  const side = 26;
  const patch = el("canvas", { class: "view-swatch", width: 2 * side, height: 2 * side, "aria-hidden": "true" });
  const pen = patch.getContext("2d");
  pen.scale(2, 2);
  pen.fillStyle = colour;
  pen.fillRect(0, 0, side, side);
  const tone = toneOf(colour);
  pen.strokeStyle = pen.fillStyle = tone[0] * 0.3 + tone[1] * 0.6 + tone[2] * 0.1 < 0.45 ? "rgb(255 255 255 / 70%)" : "rgb(0 0 0 / 60%)";
  MARKS[pattern]?.(pen, side);
  return patch;
}

const slope = (rising) => (pen, side) => {
  for (let at = -side; at <= side; at += 7) line(pen, at, rising ? side : 0, at + side, rising ? 0 : side);
};
const MARKS = {
  "rising lines": slope(true),
  "falling lines": slope(false),
  crosses: (pen, side) => [slope(true), slope(false)].forEach((draw) => draw(pen, side)),
  dots: (pen, side) => grid(side, 6, (x, y) => pen.fillRect(x - 1, y - 1, 2, 2)),
  dashes: (pen, side) => grid(side, 8, (x, y) => line(pen, x - 2, y, x + 3, y)),
  ticks: (pen, side) => grid(side, 8, (x, y) => line(pen, x, y - 2, x, y + 3)),
  chips: (pen, side) => grid(side, 9, (x, y) => chip(pen, x, y)),
};

function grid(side, step, draw) {
  for (let x = step / 2; x < side; x += step) for (let y = step / 2; y < side; y += step) draw(x, y);
}

function line(pen, ...at) {
  pen.beginPath();
  pen.moveTo(at[0], at[1]);
  pen.lineTo(at[2], at[3]);
  pen.stroke();
}

function chip(pen, x, y) {
  const turn = x * 5 + y * 3;
  pen.beginPath();
  for (const by of [0, 2.2, 4]) pen.lineTo(x + 3 * Math.cos(turn + by), y + 3 * Math.sin(turn + by));
  pen.fill();
}

/** The scale of temperature or cure, with its limit. @param {any} scale of heat.json @param {[number, number]} ends */
export function heatScale(scale, ends) {
  const bar = el("div", { class: "view-bar", "aria-hidden": "true" });
  for (const colour of scale.colours) {
    const step = el("span", {});
    step.style.backgroundColor = colour;
    bar.append(step);
  }
  const limit = (scale.limit_degC ?? scale.limit_cured) - ends[0];
  const share = limit / (ends[1] - ends[0]);
  if (share > 0 && share < 1) {
    const mark = el("i", { class: "view-limit" });
    mark.style.left = `${100 * share}%`;
    bar.append(mark);
  }
  const ticks = el("div", { class: "view-ticks" }, ...scale.ticks.map((tick) => el("span", { text: tick.text })));
  const words = share > 1 ? `${scale.limit}: nowhere reached` : `Black line: ${scale.limit}; hatched where it is ${scale.limit_degC ? "over it" : "softer"}`;
  const dashed = "Dashed: not yet poured.";
  return el("div", { class: "view-legend" }, el("p", { class: "quiet", text: scale.words }), bar, ticks, el("p", { class: "quiet", text: `${words}. ${dashed}` }));
}
