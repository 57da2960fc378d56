import { ink, letter } from "./ink.js";

const FONT = '"DejaVu Sans", "Segoe UI", system-ui, sans-serif';

/** A pencil on the plot's canvas, in dots of the screen. */
function pencil(plot) {
  const dots = plot.ctx.canvas.width / plot.width;
  return { ctx: plot.ctx, dots, size: letter() * 0.8 * dots, box: plot.bbox };
}

function framed(plot, act) {
  const { ctx, box } = pencil(plot);
  ctx.save();
  ctx.beginPath();
  ctx.rect(box.left, box.top, box.width, box.height);
  ctx.clip();
  act();
  ctx.restore();
}

/** Shades that lie under the lines: bonds along x, bands of glass along the level. */
export function drawGround(plot, chart, axis) {
  const layers = chart.bands.filter((band) => band.axis === axis.key && band.at === null);
  framed(plot, () => {
    for (const band of chart.bands) if (band.axis === "x" && band.kind === "bonds") shade(plot, band, true, "--chart-shade");
    for (const [i, band] of layers.entries()) shade(plot, band, false, band.kind === "glass" ? `--chart-shade${i % 2 ? "" : "-2"}` : "--chart-clear");
  });
}

function shade(plot, band, upright, token) {
  const { ctx, dots, box } = pencil(plot);
  const scale = upright ? "x" : band.axis;
  const [a, b] = [band.low, band.high].map((value) => plot.valToPos(value, scale, true));
  const [left, top, width, height] = upright ? [a, box.top, b - a, box.height] : [box.left, b, box.width, a - b];
  ctx.fillStyle = ink(token);
  ctx.fillRect(left, top, width, height);
  ctx.strokeStyle = ink("--edge");
  ctx.lineWidth = dots;
  ctx.setLineDash([2 * dots, 4 * dots]);
  ctx.strokeRect(left, top, width, height);
  ctx.setLineDash([]);
}

/** What stands over the lines: limits, pours, peaks with their bands, names. */
export function drawMarks(plot, chart, axis) {
  const main = axis === chart.axes[0];
  const taken = [];
  framed(plot, () => {
    for (const limit of chart.limits) if (limit.axis === axis.key) level(plot, limit, "--stop", [14, 6], taken);
    for (const mark of chart.marks) {
      if (mark.axis === "x") upright(plot, mark, main);
      else if (mark.axis === axis.key) level(plot, mark, "--chart-mark", [], taken);
    }
    for (const band of chart.bands) {
      if (band.kind === "peak" && band.axis === axis.key) whisker(plot, band, axis.key);
      if (band.kind === "gel" && !main) lying(plot, band, taken);
      if (band.axis === axis.key && band.at === null) named(plot, band, axis.key, taken);
    }
  });
  if (main) heads(plot, chart);
}

function level(plot, told, token, dash, taken) {
  const { ctx, dots, size, box } = pencil(plot);
  const y = plot.valToPos(told.at, told.axis, true);
  if (y < box.top - 1 || y > box.top + box.height + 1) return;
  ctx.strokeStyle = ctx.fillStyle = ink(token);
  ctx.lineWidth = 2 * dots;
  ctx.setLineDash(dash.map((step) => step * dots));
  line(ctx, box.left, y, box.left + box.width, y);
  ctx.setLineDash([]);
  write(plot, told.short, box.left + box.width - size * 0.3, y - size * 0.25, "right", taken, "bold");
}

function upright(plot, mark, main) {
  const { ctx, dots, box } = pencil(plot);
  const x = plot.valToPos(mark.at, "x", true);
  ctx.strokeStyle = ink(mark.kind === "demold" ? "--stop" : "--ink");
  ctx.lineWidth = (main ? 1.5 : 1) * dots;
  ctx.setLineDash(mark.kind === "demold" ? [3 * dots, 3 * dots] : []);
  line(ctx, x, box.top, x, box.top + box.height);
  ctx.setLineDash([]);
}

function whisker(plot, band, scale) {
  const { ctx, dots, size } = pencil(plot);
  const x = plot.valToPos(band.at, "x", true);
  const [low, high] = [band.low, band.high].map((value) => plot.valToPos(value, scale, true));
  ctx.strokeStyle = ink("--ink");
  ctx.lineWidth = 1.6 * dots;
  for (const y of [low, high]) line(ctx, x - size * 0.35, y, x + size * 0.35, y);
  line(ctx, x, low, x, high);
}

/** When a pour has gelled, from one in ten to nine in ten. */
function lying(plot, band, taken) {
  const { ctx, dots, size, box } = pencil(plot);
  const [low, high] = [band.low, band.high].map((value) => plot.valToPos(value, "x", true));
  const y = box.top + size * 1.5;
  ctx.strokeStyle = ctx.fillStyle = ink("--chart-3");
  ctx.lineWidth = 1.6 * dots;
  for (const x of [low, high]) line(ctx, x, y - size * 0.3, x, y + size * 0.3);
  line(ctx, low, y, high, y);
  write(plot, band.short, (low + high) / 2, y - size * 0.35, "center", taken, "normal");
}

function named(plot, band, scale, taken) {
  const { ctx, size, box } = pencil(plot);
  const [low, high] = [band.low, band.high].map((value) => plot.valToPos(value, scale, true));
  if (low - high < size * 1.1) return;
  ctx.fillStyle = ink("--quiet");
  write(plot, band.short, box.left + size * 0.4, high + size * 1.05, "left", taken, "normal");
}

/** Names of the upright marks, above the frame, where they find room. */
function heads(plot, chart) {
  const { ctx, size, box } = pencil(plot);
  const taken = [];
  ctx.save();
  for (const mark of chart.marks) {
    if (mark.axis !== "x") continue;
    const x = plot.valToPos(mark.at, "x", true);
    ctx.fillStyle = ink(mark.kind === "demold" ? "--stop" : "--ink");
    const near = x < box.left + size * 2 ? "left" : "center";
    const side = x > box.left + box.width - size * 4 ? "right" : near;
    const words = mark.kind === "pour" && chart.marks.length > 3 ? mark.short.replace("pour ", "") : mark.short;
    write(plot, words, x, box.top - size * 0.4, side, taken, "bold");
  }
  ctx.restore();
}

function write(plot, words, x, y, align, taken, weight) {
  const { ctx, size } = pencil(plot);
  ctx.textBaseline = "alphabetic";
  ctx.font = `${weight} ${size}px ${FONT}`;
  ctx.textAlign = align;
  words = fitted(ctx, words, plot.bbox.width - size);
  const width = ctx.measureText(words).width;
  const left = align === "right" ? x - width : align === "center" ? x - width / 2 : x;
  const frame = [left, y - size, left + width, y + size * 0.2];
  if (taken.some((other) => frame[0] < other[2] && other[0] < frame[2] && frame[1] < other[3] && other[1] < frame[3])) return;
  taken.push(frame);
  ctx.fillText(words, x, y);
}

function fitted(ctx, words, room) {
  if (ctx.measureText(words).width <= room) return words;
  let end = words.length - 1;
  while (end > 1 && ctx.measureText(`${words.slice(0, end)}…`).width > room) end -= 1;
  return `${words.slice(0, end)}…`;
}

function line(ctx, ...ends) {
  ctx.beginPath();
  ctx.moveTo(ends[0], ends[1]);
  ctx.lineTo(ends[2], ends[3]);
  ctx.stroke();
}
