/** A number as somebody types it with gloves on, decimal comma or point; null for what is none. @param {string} text */
export function numberOf(text) {
  const plain = text.trim().replace(/\s/g, "").replace(",", ".");
  return /^[-−]?\d+(\.\d*)?$|^[-−]?\.\d+$/.test(plain) ? Number(plain.replace("−", "-")) : null;
}

/** What was typed, in the unit of the journal. @param {number} number @param {{si: number, zero?: number}} unit */
export const inSi = (number, unit) => number * unit.si + (unit.zero ?? 0);

/** A mass as the scale shows it. @param {number} mass [kg] @param {{mass: {label: string, si: number}[], scale_step_kg: number}} units */
export function asWeighed(mass, units) {
  const step = units.scale_step_kg;
  const [unit] = units.mass;
  const digits = Math.max(0, Math.ceil(-Math.log10(step / unit.si) - 1e-9));
  const rounded = Math.round(mass / step) * step;
  return { value: Number(rounded.toFixed(9)), shown: `${(rounded / unit.si).toFixed(digits)} ${unit.label}` };
}
