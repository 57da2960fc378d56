import { svg } from "./dom.js";

const PATTERNS = {
  chips: [9, "M1 2l4 1l-2 3ZM6 6l2.4 0.6l-1.6 2Z"],
  dots: [5, "M1 1h1.2M3.5 3.5h1.2"],
  "falling lines": [7, "M-1 -1L8 8M-1 6L1 8M6 -1L8 1"],
  dashes: [8, "M0 2h4.5M4 6h4.5"],
  "rising lines": [7, "M-1 8L8 -1M-1 1L1 -1M6 8L8 6"],
  crosses: [9, "M2 0.5v4M0 2.5h4M6.5 5v4M4.5 7h4"],
  ticks: [7, "M1.5 0.5v3.5M5 4v3.5"],
};
const HEAD = 46;
const FOOT = 12;
const CLOSEST = 3.2;
const LONG = [26, 20, 15, 10, 6];
const LINE = 20;
const REACH = 15;

/** Names of all patterns. */
export const patterned = (name) => (name ? `url(#tape-${name.replaceAll(" ", "-")})` : "none");

/** Definitions of the patterns. */
export function patterns() {
  const made = Object.entries(PATTERNS).map(([name, [side, path]]) =>
    svg(
      "pattern",
      { id: `tape-${name.replaceAll(" ", "-")}`, width: side, height: side, patternUnits: "userSpaceOnUse" },
      svg("path", { d: path, class: "tape-grain" }),
    ),
  );
  return svg("defs", {}, ...made);
}

/** A small square of what a band looks like. @param {{tone: string, pattern: string}} band */
export function swatch(band) {
  return svg(
    "svg",
    { class: "tape-swatch", viewBox: "0 0 36 36", "aria-hidden": "true" },
    svg("rect", { x: 0, y: 0, width: 36, height: 36, fill: band.tone }),
    svg("rect", { x: 0, y: 0, width: 36, height: 36, fill: patterned(band.pattern), class: "tape-edge" }),
  );
}

/** Where everything stands for a width in pixels. */
export class Layout {
  /** @param {object} tape @param {number} width @param {number} rem @param {number} tallest @param {number} letters of the longest reading */
  constructor(tape, width, rem, tallest, letters) {
    const xs = tape.outline.flat().map(([x]) => x);
    this.tape = tape;
    this.width = width;
    this.narrow = width < 26 * rem;
    this.lead = this.narrow ? 7 : 12;
    this.broad = this.narrow ? 50 : 64;
    this.beside = letters * rem * (this.narrow ? 0.52 : 0.56) + this.lead + 2;
    const right = tape.flipped ? this.beside : 0.6 * rem;
    const room = Math.max(width - this.beside - this.broad - right - 8, 60);
    const broad = Math.max(Math.max(...xs) - Math.min(...xs), 1e-6);
    this.scale = Math.min(room / broad, tallest / tape.height_m);
    this.middle = room / 2 + 4;
    this.left = room + 8 + this.beside;
    this.centre = (Math.max(...xs) + Math.min(...xs)) / 2;
    this.floor = HEAD + tape.height_m * this.scale;
    this.height = this.floor + FOOT;
  }

  x(across) {
    return this.middle + (across - this.centre) * this.scale;
  }

  y(up) {
    return this.floor - up * this.scale;
  }

  /** Height of a place on the drawing [m]. */
  up(y) {
    return (this.floor - y) / this.scale;
  }
}

/** What does not move: outline for clipping, and the tape. @param {Layout} at */
export function still(at) {
  const path = at.tape.outline.map((line) => `M${line.map(([x, z]) => `${at.x(x).toFixed(1)} ${at.y(z).toFixed(1)}`).join("L")}Z`).join("");
  return {
    clip: svg("clipPath", { id: "tape-body" }, svg("path", { d: path, "clip-rule": "evenodd" })),
    outline: svg("path", { d: path, class: "tape-outline", "fill-rule": "evenodd" }),
    tape: measure(at),
  };
}

function measure(at) {
  const { tape } = at;
  const body = svg("rect", { x: at.left, y: at.y(tape.height_m), width: at.broad, height: tape.height_m * at.scale, class: "tape-tape" });
  const marks = [side(at, at.left, 1, (up) => at.y(up), tape.ticks)];
  if (tape.flipped) marks.push(side(at, at.left + at.broad, -1, (up) => at.y(tape.height_m - up), tape.ticks));
  const heads = [head(at.left - 6, "end", ["up from", "the floor"])];
  if (tape.flipped) heads.push(head(at.left + at.broad + 6, "start", ["as it", "stands"]));
  const unit = svg("text", { x: at.left + at.broad / 2, y: HEAD - 5, class: "tape-unit", "text-anchor": "middle" });
  unit.textContent = tape.unit;
  return svg("g", { "aria-hidden": "true" }, body, ...marks, ...heads, unit);
}

/** One edge of the tape, its ticks no closer than one can tell apart. */
function side(at, edge, way, place, ticks) {
  const step = at.tape.step_m * at.scale;
  const inches = at.tape.unit === "in";
  const every = inches ? [16, 8, 4, 2, 1] : [10, 5, 1];
  const finest = every.findLastIndex((count) => count * step >= CLOSEST);
  const longs = inches ? LONG : [LONG[0], LONG[2], LONG[4]];
  const lines = ticks
    .filter((tick) => tick.size <= finest)
    .map((tick) => `M${edge} ${place(tick.at_m).toFixed(1)}h${way * (at.tape.flipped ? 0.75 : 1) * longs[tick.size]}`);
  const numbers = labelled(at, ticks, every[0] * step, place).map((tick) => {
    const text = svg("text", { x: edge + way * 5, y: place(tick.at_m) - 3, class: "tape-number", "text-anchor": way > 0 ? "start" : "end" });
    text.textContent = tick.label;
    return text;
  });
  return svg("g", {}, svg("path", { d: lines.join(""), class: "tape-ticks" }), ...numbers);
}

/** Every so many numbers that they do not run into each other, and none at the ends that would be cut off. */
function labelled(at, ticks, apart, place) {
  const named = ticks.filter((tick) => tick.label);
  const every = [1, 2, 5, 10, 20, 50].find((count) => count * apart >= 18) ?? 100;
  return named.filter((tick, number) => number % every === 0 && place(tick.at_m) - 14 > at.y(at.tape.height_m));
}

function head(x, anchor, words) {
  const text = svg("text", { x, y: 12, class: "tape-head", "text-anchor": anchor });
  words.forEach((word, number) => {
    const line = svg("tspan", { x, dy: number ? "1.15em" : 0 });
    line.textContent = word;
    text.append(line);
  });
  return text;
}

/** The bands in the section. @param {Layout} at @param {{tone: string, pattern: string, lower: number, upper: number}[]} bands */
export function filled(at, bands) {
  const made = bands.flatMap((band) => {
    const box = { x: 0, y: at.y(band.upper), width: at.left - at.beside, height: Math.max((band.upper - band.lower) * at.scale, 0) };
    return [svg("rect", { ...box, fill: band.tone }), svg("rect", { ...box, fill: patterned(band.pattern) })];
  });
  return svg("g", { "clip-path": "url(#tape-body)" }, ...made);
}

/** Texts beside the tape that do not lie over each other. @param {number[]} wanted rising downward @param {number} top @param {number} bottom */
export function spread(wanted, top, bottom) {
  const places = [...wanted];
  for (let i = 0; i < places.length; i += 1) places[i] = Math.max(places[i], i ? places[i - 1] + LINE : top);
  let limit = bottom;
  for (let i = places.length - 1; i >= 0; i -= 1) {
    places[i] = Math.min(places[i], limit);
    limit = places[i] - LINE;
  }
  return places;
}

/** Readings beside the tape, joined to their height. @param {Layout} at @param {{up: number, left: string, right: string}[]} marks the highest first */
export function readings(at, marks) {
  const wanted = marks.map((mark) => at.y(mark.up));
  const places = spread(wanted, HEAD - 2, at.floor + 4);
  const end = at.left + at.broad;
  return marks.flatMap((mark, number) => {
    const [y, line] = [wanted[number], places[number]];
    const lead = `M${at.left - at.lead} ${line}L${at.left} ${y}H${end}${at.tape.flipped ? `L${end + at.lead} ${line}` : ""}`;
    const left = svg("text", { x: at.left - at.lead - 2, y: line + 5, class: "tape-reading", "text-anchor": "end" });
    left.textContent = mark.left;
    const right = svg("text", { x: end + at.lead + 2, y: line + 5, class: "tape-reading", "text-anchor": "start" });
    right.textContent = at.tape.flipped ? mark.right : "";
    return [svg("path", { d: lead, class: "tape-lead" }), left, right];
  });
}

/** A border that is dragged. @param {Layout} at @param {number} place */
export function handle(at, place) {
  const broad = at.left - at.beside + 4;
  const grip = svg("path", { d: `M${broad - 25} -6h14M${broad - 25} 0h14M${broad - 25} 6h14`, class: "tape-grip" });
  return svg(
    "g",
    { class: "tape-border", role: "slider", tabindex: "0", "aria-orientation": "vertical", "data-border": place },
    svg("rect", { x: 0, y: -REACH, width: broad, height: 2 * REACH, class: "tape-reach" }),
    svg("path", { d: `M2 0H${broad}`, class: "tape-line" }),
    svg("rect", { x: broad - 30, y: -12, width: 24, height: 24, rx: 5, class: "tape-knob" }),
    grip,
  );
}
