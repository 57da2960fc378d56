import { el } from "../dom.js";
import { inSi, numberOf } from "./typed.js";

let count = 0;

const WAYS = [
  ["dip", "down from the rim (dip)"],
  ["floor", "up from the mold's floor"],
  ["standing", "up as the piece stands"],
];

/** A level as read, from the mold's floor as poured. */
const FROM = {
  dip: (read, told) => told.rim_m - read,
  floor: (read) => read,
  standing: (read, told) => told.turned_m - read,
};

function chosen(label, options) {
  const id = `ask-${++count}`;
  const select = el("select", { id }, ...options.map(([value, text]) => el("option", { value, text })));
  return { select, field: el("div", { class: "bench-field" }, el("label", { for: id, text: label }), select) };
}

function typed(label, given) {
  const id = `ask-${++count}`;
  const input = el("input", { id, autocomplete: "off", enterkeyhint: "done", ...given });
  return { input, field: el("div", { class: "bench-field" }, el("label", { for: id, text: label }), input) };
}

function form(fields, read, enter) {
  const wrong = el("p", { class: "stop", role: "alert" });
  const submit = async (event) => {
    event.preventDefault();
    wrong.textContent = "";
    const said = read();
    if (said.wrong) wrong.textContent = said.wrong;
    else await enter(said.value, said.shown);
  };
  return el("form", { class: "bench-ask", novalidate: true, onsubmit: submit }, ...fields, wrong, el("button", { type: "submit", text: "Enter it" }));
}

function measured(kind, units, label) {
  const number = typed(label, { inputmode: "decimal" });
  const unit = chosen("unit", units.map((one, i) => [String(i), one.label]));
  const read = () => {
    const value = numberOf(number.input.value);
    const picked = units[Number(unit.select.value)];
    if (value === null) return { wrong: "Type a number, as 412 or 0.5." };
    return { value: inSi(value, picked), shown: `${number.input.value.trim()} ${picked.label}` };
  };
  return { fields: [number.field, unit.field], read, kind };
}

function mass(told, kind, label) {
  const asked = measured(kind, told.units.mass, label);
  const read = () => {
    const said = asked.read();
    const least = kind === "caught" ? 0 : Number.MIN_VALUE;
    return said.wrong || said.value >= least ? said : { wrong: "A weight is more than nothing." };
  };
  return { ...asked, read };
}

function level(told, label) {
  const asked = measured("level", told.units.level, label);
  const way = chosen("read", WAYS.filter(([name]) => name !== "standing" || told.turned_m !== null));
  const read = () => {
    const said = asked.read();
    if (said.wrong) return said;
    const value = FROM[way.select.value](said.value, told);
    if (value < -1e-3 || value > told.rim_m + 1e-3) return { wrong: "That lies outside the mold: measure again, and look which way the tape was held." };
    return { value: Math.min(Math.max(value, 0), told.rim_m), shown: `${said.shown} ${way.select.selectedOptions[0].text}` };
  };
  return { fields: [...asked.fields, way.field], read };
}

function words(label) {
  const text = typed(label, { maxlength: "500" });
  const read = () => {
    const said = text.input.value.trim();
    return said ? { value: said, shown: said } : { wrong: "Type a few words." };
  };
  return { fields: [text.field], read };
}

/**
 * A form for what is typed.
 * @param {any} told of the bench
 * @param {"mass" | "level" | "temperature" | "words"} ask
 * @param {{kind: string, label: string}} about
 * @param {(value: any, shown: string) => Promise<void>} enter
 */
export function asking(told, ask, about, enter) {
  const make = {
    mass: () => mass(told, about.kind, about.label),
    level: () => level(told, about.label),
    temperature: () => measured("temperature", told.units.temperature, about.label),
    words: () => words(about.label),
  };
  const { fields, read } = make[ask]();
  return form(fields, read, enter);
}
