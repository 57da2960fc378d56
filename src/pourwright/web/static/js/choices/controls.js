import { el } from "../dom.js";

/** @typedef {{element: HTMLElement, focus: HTMLElement, value: () => string, set: (text: string) => void, fieldset?: boolean}} Control */

const YES_NO = [
  { id: "true", name: "yes" },
  { id: "false", name: "no" },
];

/** The control that fits a field. @param {object} field @param {string} id @returns {Control} */
export function controlFor(field, id) {
  if (field.kind === "yes-no") return selectOf(field, id, YES_NO);
  if (field.allowed.length && field.many && field.kind === "choice") return boxesOf(field, id);
  if (field.allowed.length && !field.many) return selectOf(field, id, field.allowed);
  if (field.kind === "moment") return inputOf(id, "datetime-local", (text) => text.replace(" ", "T"), (text) => text.replace("T", " "));
  if (field.kind === "date" && !field.many) return inputOf(id, "date");
  return textOf(field, id);
}

function inputOf(id, type, shown = (text) => text, typed = (text) => text) {
  const input = el("input", { id, type });
  return { element: input, focus: input, value: () => typed(input.value), set: (text) => (input.value = shown(text)) };
}

function textOf(field, id) {
  const input = el("input", { id, type: "text", autocomplete: "off", spellcheck: "false", list: field.kind === "time zone" ? zones() : null });
  return { element: input, focus: input, value: () => input.value.trim(), set: (text) => (input.value = text) };
}

function zones() {
  const id = "time-zones";
  if (!document.getElementById(id)) {
    const names = Intl.supportedValuesOf?.("timeZone") ?? [];
    document.body.append(el("datalist", { id }, ...names.map((name) => el("option", { value: name }))));
  }
  return id;
}

function selectOf(field, id, allowed) {
  const select = el("select", { id });
  const name = (value) => allowed.find((one) => one.id === value)?.name ?? value;
  const empty = field.required ? [] : [el("option", { value: "", text: `default: ${name(field.default)}` })];
  select.append(...empty, ...allowed.map((one) => el("option", { value: one.id, text: one.name })));
  const set = (text) => {
    // a file may name what nobody knows here: it is shown, not lost
    if (text && !allowed.some((one) => one.id === text)) select.append(el("option", { value: text, text: `${text} (not known here)` }));
    select.value = text;
  };
  return { element: select, focus: select, value: () => select.value, set };
}

function boxesOf(field, id) {
  const boxes = field.allowed.map((one) => el("input", { type: "checkbox", value: one.id, id: `${id}-${one.id}` }));
  const labels = boxes.map((box, i) => el("label", {}, box, ` ${field.allowed[i].name}`));
  const element = el("div", { class: "boxes", id, role: "group" }, ...labels);
  const value = () => boxes.filter((box) => box.checked).map((box) => box.value).join(", ");
  const set = (text) => {
    const chosen = new Set((text || usual(field)).split(",").map((part) => part.trim()));
    for (const box of boxes) box.checked = chosen.has(box.value);
  };
  return { element, focus: boxes[0], value, set, fieldset: true };
}

/** Days that hold where none are written: the default tells them as `mon to fri`. */
function usual(field) {
  const [from, to] = field.default.split(" to ");
  const names = field.allowed.map((one) => one.id);
  const [first, last] = [names.indexOf(from), names.indexOf(to)];
  return first < 0 || last < 0 ? "" : names.slice(first, last + 1).join(",");
}
