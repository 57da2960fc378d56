/** What can be done to bands as a job file has them; nothing here draws or asks. */

/** How voids are known. */
export const VOIDS = { record: "as the grade's record says", share: "a share I write", mass: "bucket test, glass weighed", water: "bucket test, water filled up" };

/** Leave keys out. */
const without = (band, ...names) => Object.fromEntries(Object.entries(band).filter(([name]) => !names.includes(name)));

/** A copy of all bands with one replaced. @param {object[]} bands @param {number} place @param {object} band */
export const replaced = (bands, place, band) => bands.map((each, number) => (number === place ? band : each));

/** The same band, ending elsewhere. @param {object} band @param {string | number} to */
export const ending = (band, to) => ({ to, ...without(band, "to") });

/** What kind of glass a band has: neat, mix, many or the grade. @param {object} band */
export function kindOf(band) {
  if (band.neat) return "neat";
  if (band.mix?.length) return band.mix.length === 2 ? "mix" : "many";
  return band.grade ?? "neat";
}

/** The same band of another kind. @param {object} band @param {string} kind @param {string[]} grades */
export function ofKind(band, kind, grades) {
  if (kind === "neat") return { to: band.to, neat: true };
  const kept = without(band, "neat", "grade", "mix", "bucket_test", "void_fraction");
  if (kind !== "mix") return { ...kept, grade: kind };
  const [first, second] = [band.grade ?? grades[0], grades.find((grade) => grade !== (band.grade ?? grades[0]))];
  return { ...kept, mix: [{ grade: first, share: 0.5 }, { grade: second, share: 0.5 }] };
}

/** The same mix with other grades or another share of the first. @param {object} band @param {{first?: string, second?: string, share?: number}} changes */
export function mixed(band, changes) {
  const [one, other] = band.mix;
  const share = Math.min(Math.max(changes.share ?? one.share, 0.01), 0.99);
  const second = Number((1 - share).toFixed(6));
  return { ...band, mix: [{ grade: changes.first ?? one.grade, share }, { grade: changes.second ?? other.grade, share: second }] };
}

/** The same band with a value, or without the key where it is empty. @param {object} band @param {string} name @param {unknown} value */
export function having(band, name, value) {
  return value === "" || value === null || value === false ? without(band, name) : { ...band, [name]: value };
}

/** How the voids of a band are known. @param {object} band */
export function voidsOf(band) {
  if (band.bucket_test) return band.bucket_test.water ? "water" : "mass";
  return band.void_fraction === undefined ? "record" : "share";
}

/** The same band with its voids known in another way. @param {object} band @param {string} way @param {{share?: number, mass?: string, water?: string, volume?: string}} given */
export function knowing(band, way, given) {
  const kept = without(band, "void_fraction", "bucket_test");
  if (way === "share") return { ...kept, void_fraction: given.share };
  if (way === "mass") return { ...kept, bucket_test: { mass: given.mass, volume: given.volume } };
  if (way === "water") return { ...kept, bucket_test: { water: given.water, volume: given.volume } };
  return kept;
}

/** All bands with a new one under one of them, as deep as half of it. @param {object[]} bands @param {number} place @param {number} lower @param {number} upper */
export function split(bands, place, lower, upper) {
  const below = ending(without(bands[place], "soft", "shell"), (lower + upper) / 2);
  return [...bands.slice(0, place), below, ...bands.slice(place)];
}

/** All bands without one; what lay there is the band above it, or below it where it was the last. @param {object[]} bands @param {number} place */
export function removed(bands, place) {
  const left = bands.filter((_, number) => number !== place);
  if (place === bands.length - 1 && left.length) left[left.length - 1] = ending(left[left.length - 1], "top");
  return left;
}
