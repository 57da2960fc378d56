/**
 * What is done and what comes next, worked out here too, so that the bench goes on without a network.
 * The rules are those of app/benching/step.py.
 * @typedef {{id: string, pour: number, kind: string, at: string, text: string, value: number | null}} Entry
 * @typedef {{pour: number, kinds: string[], words: string, count: number, since: Mark | null}} Mark
 */
const GOES_IN = new Set(["weigh_a", "weigh_b", "mixed", "poured"]);

const time = (entry) => Date.parse(entry.at);

const fits = (mark, entry) =>
  entry.pour === mark.pour &&
  (mark.kinds.includes(entry.kind) || (mark.words !== "" && entry.kind === "step" && entry.text.startsWith(mark.words)));

/** The entry by which something is known to have happened. @param {Mark} mark @param {Entry[]} entries in order @returns {Entry | null} */
export function found(mark, entries) {
  const begun = mark.since ? found(mark.since, entries) : null;
  if (mark.since && !begun) return null;
  const fitting = entries.filter((one) => fits(mark, one) && (!begun || time(one) >= time(begun)));
  return fitting[mark.count - 1] ?? null;
}

/** @param {any} step @param {Entry[]} entries */
export function isDone(step, entries) {
  const over = step.passed ? [{ pour: step.pour, kinds: [], words: step.passed, count: 1, since: null }] : [];
  return [...step.done, ...over].some((mark) => found(mark, entries) !== null);
}

/** The last pour that something went into, 0 for none. @param {Entry[]} entries */
export const lastPour = (entries) => Math.max(0, ...entries.filter((one) => GOES_IN.has(one.kind)).map((one) => one.pour));

/** Steps that are not done, the next one first. @param {any[]} steps @param {Entry[]} entries */
export function left(steps, entries) {
  const last = lastPour(entries);
  return steps.filter((step) => (step.pour === 0 || step.pour >= last) && !isDone(step, entries));
}

/** What stands: entries that no other one corrects, in the order in which they happened. @param {any[]} entries */
export function standing(entries) {
  const corrected = new Set(entries.map((one) => one.replaces).filter(Boolean));
  return entries.filter((one) => !corrected.has(one.id)).sort((one, other) => time(one) - time(other));
}

/** The so-manyth entry of a kind in a pour. @param {Entry[]} entries @param {number} pour @param {string} kind @param {number} count */
export const nth = (entries, pour, kind, count) => found({ pour, kinds: [kind], words: "", count, since: null }, entries);

/** The words of an entry without the mark of a press: what is typed was read. @param {string} text @param {string[]} pressed */
export function bare(text, pressed) {
  const mark = pressed.find((one) => text === one || text.endsWith(`, ${one}`));
  return mark ? text.slice(0, -mark.length).replace(/, $/, "") : text;
}
