import { drawGround, drawMarks } from "./marks.js";
import { ink, letter, pen } from "./ink.js";

const FONT = '"DejaVu Sans", "Segoe UI", system-ui, sans-serif';
/** Height of the frame as a share of the width, within rem; a panel below another one is lower. */
const SHAPE = { main: [0.42, 13, 26], below: [0.13, 5.5, 9] };
const HEAD = 1.4;
const AXIS = { words: 1.8, name: 1.4 };
const LETTER = 0.82;
/** Room right of the frame, for the half of a last name, in rem. */
const EDGE = 1.6;

/** One upright axis with its lines. */
export class Panel {
  /**
   * @param {Function} uPlot
   * @param {HTMLElement} stage
   * @param {object} chart
   * @param {object} axis
   * @param {Set<string>} hidden
   * @param {boolean} lowest
   * @param {(at: number | null) => void} pointed
   */
  constructor(uPlot, stage, chart, axis, hidden, lowest, pointed) {
    Object.assign(this, { stage, chart, axis, lowest, pointed });
    this.series = chart.series.filter((series) => series.axis === axis.key && !hidden.has(series.key));
    this.quiet = false;
    const data = [chart.x.values, ...this.series.map((series) => series.values)];
    this.plot = new uPlot(this.#options(), data, stage);
  }

  #size() {
    const rem = letter();
    const width = Math.max(this.stage.clientWidth, 10 * rem);
    const [share, least, most] = this.axis === this.chart.axes[0] ? SHAPE.main : SHAPE.below;
    const frame = Math.min(Math.max(share * width, least * rem), most * rem);
    return { width, height: frame + rem * (HEAD + this.#below()) };
  }

  /** Room of the axes below the frame [rem]. */
  #below() {
    if (!this.lowest) return AXIS.words;
    return (AXIS.words + AXIS.name) * (this.chart.x.also.length ? 2 : 1);
  }

  /** Take the width that there is. */
  fit() {
    const { width, height } = this.#size();
    if (width !== this.plot.width || height !== this.plot.height) this.plot.setSize({ width, height });
  }

  /** Stand at one place along x. @param {number} at */
  cursor(at) {
    this.quiet = true;
    this.plot.setCursor({ left: this.plot.valToPos(this.chart.x.values[at], "x"), top: -10 });
    this.quiet = false;
  }

  /** Take it off the page. */
  end() {
    this.plot.destroy();
  }

  #options() {
    const { chart, axis } = this;
    return {
      ...this.#size(),
      pxAlign: 0,
      padding: [letter() * HEAD, axis.also.length ? 0 : EDGE * letter(), 0, 0],
      legend: { show: false },
      cursor: { drag: { x: false, y: false }, y: false, points: { size: letter() * 0.45 } },
      scales: { x: { time: false, range: [chart.x.low, chart.x.high] }, [axis.key]: { range: [axis.low, axis.high] } },
      axes: [this.#along(), ...(this.lowest && chart.x.also.length ? [this.#counted()] : []), this.#upright(axis.ticks, axis.words, 3), ...(axis.also.length ? [this.#upright(axis.also, axis.also_words, 1)] : [])],
      series: [{}, ...this.series.map((series) => this.#line(series))],
      hooks: {
        drawClear: [(plot) => drawGround(plot, chart, axis)],
        draw: [(plot) => drawMarks(plot, chart, axis)],
        setCursor: [(plot) => this.quiet || (plot.cursor.left >= 0 && this.pointed(plot.cursor.idx))],
      },
    };
  }

  #line(series) {
    const drawn = pen(series.key, this.chart.series.indexOf(series));
    return { ...drawn, scale: this.axis.key, spanGaps: true, points: { show: false } };
  }

  #axis() {
    const font = `${letter() * LETTER}px ${FONT}`;
    const tone = ink("--line");
    return { stroke: ink("--ink"), font, labelFont: font, grid: { stroke: tone, width: 1 }, ticks: { stroke: ink("--edge"), width: 1, size: 6 } };
  }

  #along() {
    const { ticks, words } = this.chart.x;
    return {
      ...this.#axis(),
      space: 0,
      size: letter() * AXIS.words,
      labelSize: letter() * AXIS.name,
      label: this.lowest ? words : undefined,
      splits: () => ticks.map((tick) => tick.at),
      values: (plot) => thinned(plot, ticks),
    };
  }

  /** The second reading along x: hours beside the shop's clock. */
  #counted() {
    const { also, also_words: words } = this.chart.x;
    const below = { grid: { show: false }, size: letter() * AXIS.words, labelSize: letter() * AXIS.name, label: words };
    return { ...this.#axis(), ...below, space: 0, scale: "x", side: 2, splits: () => also.map((tick) => tick.at), values: (plot) => thinned(plot, also) };
  }

  #upright(ticks, words, side) {
    // panels below each other keep one left edge
    const beside = side === 3 ? this.chart.axes.flatMap((axis) => axis.ticks) : ticks;
    const longest = Math.max(...beside.map((tick) => tick.words.length), 1);
    return {
      ...this.#axis(),
      scale: this.axis.key,
      side,
      space: 0,
      size: letter() * (0.6 + 0.55 * longest * LETTER + 0.4),
      label: words,
      labelSize: letter() * 1.5,
      grid: side === 3 ? this.#axis().grid : { show: false },
      splits: () => ticks.map((tick) => tick.at),
      values: (plot) => spaced(plot, ticks, this.axis.key),
    };
  }
}

/** Words of the marks along x that find room, strong ones first. */
function thinned(plot, ticks) {
  const wide = (tick) => tick.words.length * letter() * LETTER * 0.62 + letter() * 0.5;
  const kept = new Set();
  for (const strong of [true, false]) {
    for (const [i, tick] of ticks.entries()) {
      if (Boolean(tick.strong) !== strong) continue;
      const x = plot.valToPos(tick.at, "x");
      const half = wide(tick) / 2;
      const free = [...kept].every((j) => Math.abs(plot.valToPos(ticks[j].at, "x") - x) > half + wide(ticks[j]) / 2);
      const over = x + half - letter() * 0.25 - (plot.bbox.width * plot.width) / plot.ctx.canvas.width;
      if (free && over <= EDGE * letter()) kept.add(i);
    }
  }
  return ticks.map((tick, i) => (kept.has(i) ? tick.words : ""));
}

/** Every mark of an upright axis, or every second or fifth where they stand too close. */
function spaced(plot, ticks, scale) {
  if (ticks.length < 2) return ticks.map((tick) => tick.words);
  const apart = Math.abs(plot.valToPos(ticks[1].at, scale) - plot.valToPos(ticks[0].at, scale));
  const every = [1, 2, 5].find((step) => step * apart > letter() * 1.2) ?? 10;
  return ticks.map((tick, i) => (i % every ? "" : tick.words));
}
