/** Dashes of the lines by key: told apart without colour. Widths and dashes are in hundredths of the root letter size. */
const PENS = {
  hottest: { token: "--chart-1", width: 18, dash: [] },
  coolest: { token: "--chart-2", width: 10, dash: [] },
  middle: { token: "--chart-3", width: 13, dash: [60, 25] },
  top: { token: "--chart-4", width: 13, dash: [45, 18, 10, 18] },
  face: { token: "--chart-5", width: 14, dash: [14, 16] },
  air: { token: "--chart-2", width: 10, dash: [6, 26] },
  least_cured: { token: "--chart-1", width: 16, dash: [] },
  liquid: { token: "--chart-1", width: 18, dash: [] },
  cavity: { token: "--chart-2", width: 12, dash: [55, 25] },
};
const OTHERS = [[], [60, 25], [14, 16], [45, 18, 10, 18]];

/** Root letter size [px]. */
export const letter = () => parseFloat(getComputedStyle(document.documentElement).fontSize);

/** A colour of the page by the name of its token. @param {string} token */
export const ink = (token) => getComputedStyle(document.documentElement).getPropertyValue(token).trim();

/** How a line is drawn. @param {string} key @param {number} index */
export function pen(key, index) {
  const told = PENS[key] ?? { token: `--chart-${(index % 5) + 1}`, width: 13, dash: OTHERS[index % OTHERS.length] };
  const scale = letter() / 100;
  return { stroke: ink(told.token), width: told.width * scale, dash: told.dash.map((step) => step * scale) };
}

/** Call when light turns to dark or back. @param {() => void} act @returns {() => void} */
export function onShade(act) {
  const shade = matchMedia("(prefers-color-scheme: dark)");
  shade.addEventListener("change", act);
  return () => shade.removeEventListener("change", act);
}
