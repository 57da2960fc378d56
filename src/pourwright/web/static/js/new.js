import { Refusal, send } from "./desk.js";
import { el } from "./dom.js";

const form = document.getElementById("new");
const grades = JSON.parse(document.getElementById("grades").textContent);
const place = (id) => document.getElementById(id);
const wayNow = () => form.elements.way.value;
/** What the server said of the file that was handed in. */
let handed = null;

function showWay() {
  const way = wayNow();
  for (const part of form.querySelectorAll("[data-way]")) part.hidden = !part.dataset.way.split(" ").includes(way);
  showGlass();
}

function showGlass() {
  const resin = form.querySelector("input[name=material]:checked")?.dataset.resin === "yes";
  place("glass").hidden = !resin || wayNow() === "copy";
}

function refuse(error, field = null) {
  place("refused").textContent = error instanceof Refusal ? error.words : error.message;
  for (const input of form.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
  field?.setAttribute("aria-invalid", "true");
  (field ?? place("refused")).focus?.();
}

/* 1 and 2: a file */

function handIn(file) {
  const bar = place("file-progress");
  const request = new XMLHttpRequest();
  request.open("PUT", `/uploads?name=${encodeURIComponent(file.name)}`);
  request.responseType = "json";
  request.upload.onprogress = (step) => step.lengthComputable && (bar.value = step.loaded / step.total);
  request.upload.onload = () => (place("file-state").textContent = "The file is here; reading it ...");
  return new Promise((done, failed) => {
    request.onload = () =>
      request.status < 300 ? done(request.response) : failed(new Refusal(request.status, request.response?.error ?? {}));
    request.onerror = () => failed(new Refusal(0, { what: "the file did not arrive", todo: "hand it in again" }));
    request.send(file);
  });
}

async function takeFile(file) {
  if (!file) return;
  handed = null;
  const bar = place("file-progress");
  bar.value = 0;
  bar.hidden = false;
  place("refused").textContent = "";
  place("file-state").textContent = `Handing in ${file.name} ...`;
  try {
    handed = await handIn(file);
    place("file-state").textContent = `${file.name}: ${handed.triangles.toLocaleString()} triangles`;
    if (!place("title").value) place("title").value = file.name.replace(/\.[^.]+$/, "").replace(/[-_]+/g, " ");
    askUnit();
  } catch (error) {
    place("file-state").textContent = "";
    refuse(error, place("file"));
  } finally {
    bar.hidden = true;
  }
}

function askUnit() {
  const goal = place("unit-choice");
  if (!handed.needs_unit) {
    goal.replaceChildren(el("p", { text: `The file says its own size: ${handed.sizes[0].words}.` }));
    return;
  }
  const choices = handed.sizes.map((size) =>
    el("label", {}, el("input", { type: "radio", name: "unit", value: size.unit }), el("span", {}, el("strong", { text: size.unit }), `: it is ${size.words}`)),
  );
  goal.replaceChildren(el("p", { text: "Such a file does not say what its numbers mean. Which of these is right?" }), el("div", { class: "stack" }, ...choices));
}

/* 1 and 2: a form, a tape */

function askSizes() {
  const option = place("form").selectedOptions[0];
  place("form-sizes").replaceChildren(
    ...option.dataset.sizes.split("|").map((name, i) =>
      el("p", {}, el("label", { for: `size-${i}`, text: name }), el("input", { id: `size-${i}`, class: "size", size: "10", autocomplete: "off" })),
    ),
  );
}

function addReading() {
  const body = place("readings").tBodies[0];
  const number = body.rows.length + 1;
  const cell = (name) =>
    el("td", {}, el("input", { "data-reading": name, "aria-label": `${name} of reading ${number}`, autocomplete: "off" }));
  const ends = el("select", { "data-reading": "closes", "aria-label": `how reading ${number} ends` }, ...["", "flat", "dome", "point"].map((text) => el("option", { value: text, text: text || "no end" })));
  const row = el("tr", {}, ...["height", "girth", "width", "depth"].map(cell), el("td", {}, ends));
  row.append(el("td", {}, el("button", { type: "button", text: "remove", "aria-label": `remove reading ${number}`, onclick: () => row.remove() })));
  body.append(row);
  return row;
}

const readings = () =>
  [...place("readings").tBodies[0].rows]
    .map((row) => Object.fromEntries([...row.querySelectorAll("[data-reading]")].map((input) => [input.dataset.reading, input.value.trim()]).filter(([, text]) => text)))
    .map(({ width, depth, ...rest }) => (width && !depth && !rest.girth ? { ...rest, diameter: width } : { ...rest, ...(width && { width }), ...(depth && { depth }) }))
    .filter((reading) => Object.keys(reading).length);

/* 4: glass */

function addBand() {
  const number = place("bands").children.length + 1;
  const grade = el("select", { id: `grade-${number}` }, ...grades.map((one) => el("option", { value: one.id, text: one.words })));
  const colour = el("input", { id: `colour-${number}`, value: "clear", size: "14", list: "colours", autocomplete: "off" });
  const row = el(
    "div",
    { class: "band-row" },
    el("p", {}, el("label", { for: grade.id, text: "Grade" }), grade),
    el("p", {}, el("label", { for: colour.id, text: "Colour of the glass" }), colour),
    el("p", {}, el("button", { type: "button", text: "remove", "aria-label": `remove band ${number}`, onclick: () => row.remove() })),
  );
  place("bands").append(row);
}

const glass = () => [...place("bands").children].map((row) => [row.querySelector("select").value, row.querySelector("input").value.trim() || "clear"]);

/* The answers */

const SHAPES = {
  file: () => ({ shape: "file", upload: handed?.upload ?? null, ...unitAndHeight() }),
  form: () => ({ shape: place("form").value, size: [...form.querySelectorAll(".size")].map((input) => input.value.trim()) }),
  tape: () => ({ shape: "measured", readings: readings() }),
};

function unitAndHeight() {
  if (!handed) throw new Refusal(400, { what: "no shape file was handed in", todo: "choose one, or another way" });
  const unit = handed.needs_unit ? form.elements.unit.value : null;
  if (handed.needs_unit && !unit) throw new Refusal(400, { what: "the file does not say what its numbers mean", todo: "choose the size that is right (question 2)" });
  return { unit, height_m: handed.sizes.find((size) => size.unit === unit).height_m };
}

function answers() {
  const title = place("title").value.trim();
  if (wayNow() === "copy") return ["/copies", { job: place("copy").value, title }];
  if (!title) throw new Refusal(400, { what: "the piece has no name yet", todo: "give it one (question 5)" });
  const given = SHAPES[wayNow()]();
  const material = form.elements.material.value;
  const bands = place("glass").hidden ? [] : glass();
  return ["/jobs", { title, ...given, material, glass: bands, shop_temperature: place("warmth").value.trim() }];
}

async function begin(event) {
  event.preventDefault();
  place("begin").disabled = true;
  try {
    const [url, body] = answers();
    window.location.assign((await send(url, body)).url);
  } catch (error) {
    place("begin").disabled = false;
    refuse(error);
  }
}

function listenToDrop() {
  const drop = place("drop");
  for (const name of ["dragenter", "dragover"]) {
    drop.addEventListener(name, (event) => {
      event.preventDefault();
      drop.classList.add("over");
    });
  }
  drop.addEventListener("dragleave", () => drop.classList.remove("over"));
  drop.addEventListener("drop", (event) => {
    event.preventDefault();
    drop.classList.remove("over");
    takeFile(event.dataTransfer.files[0]);
  });
}

form.addEventListener("submit", begin);
form.addEventListener("change", (event) => {
  if (event.target.name === "way") showWay();
  if (event.target.name === "material") showGlass();
});
place("file").addEventListener("change", () => takeFile(place("file").files[0]));
place("form").addEventListener("change", askSizes);
place("more").addEventListener("click", () => addReading().querySelector("input").focus());
place("band-more").addEventListener("click", addBand);
document.body.append(el("datalist", { id: "colours" }, ...["clear", "bottle green", "olive", "amber", "brown", "blue", "aqua"].map((value) => el("option", { value }))));
listenToDrop();
askSizes();
for (let i = 0; i < 4; i += 1) addReading();
addBand();
const copied = new URLSearchParams(window.location.search).get("copy");
if (copied && place("copy")) {
  form.elements.way.value = "copy";
  place("copy").value = copied;
}
showWay();
form.dataset.ready = "yes";
