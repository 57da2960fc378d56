import { el } from "../dom.js";
import { asking } from "./asking.js";
import { sha256 } from "./made.js";

const OTHERS = [
  ["level", "level", "A level"],
  ["temperature", "temperature", "A temperature"],
  ["bubbles", "words", "Bubbles"],
  ["note", "words", "A note"],
  ["caught", "mass", "Found beside the mold"],
  ["topped_up", "mass", "Topped up"],
  ["clung", "mass", "Left on funnel and stick"],
];
const LARGEST = 25_000_000;

/** What may be entered at any time: levels, a temperature, bubbles, notes, photos, what ran out. @param {any} bench */
export function more(bench) {
  const place = el("div", { class: "bench-place" });
  const open = ([kind, ask, label]) =>
    el("button", { type: "button", text: label, onclick: () => show(kind, ask, label) });
  const show = (kind, ask, label) => {
    const form = asking(bench.told, ask, { kind, label }, async (said, shown) => {
      const given = { pour: bench.pour, kind, text: "", value: said };
      place.replaceChildren();
      await bench.enter(ask === "words" ? { ...given, text: said, value: null } : given, shown);
    });
    place.replaceChildren(form);
    form.querySelector("input").focus();
  };
  return [photo(bench), el("div", { class: "bench-buttons two" }, ...OTHERS.map(open)), place];
}

function photo(bench) {
  const wrong = el("p", { class: "stop", role: "alert" });
  const input = el("input", { id: "bench-photo", type: "file", accept: "image/jpeg,image/png,image/webp,image/heic,image/avif", capture: "environment" });
  input.addEventListener("change", async () => {
    const [file] = input.files;
    if (!file) return;
    wrong.textContent = file.size > LARGEST ? "This photo is too large: 25 MB at most." : "";
    if (wrong.textContent) return;
    const content = await file.arrayBuffer();
    await bench.enter({ pour: bench.pour, kind: "photo", text: "", value: null, photo: sha256(content) }, "", content);
    input.value = "";
  });
  return el("div", { class: "bench-field" }, el("label", { for: "bench-photo", text: "A photo" }), input, wrong);
}
