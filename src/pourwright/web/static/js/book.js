import { sha256, uuid } from "./bench/made.js";
import { Refusal, send } from "./desk.js";

const LARGEST = 25_000_000;

/** What a field says; nothing where it is left empty, unless that is said by it. @param {any} field */
function said(field) {
  if (field.type === "checkbox") return field.checked || undefined;
  const text = field.value.trim();
  if (!text) return "empty" in field.dataset ? "" : undefined;
  return "number" in field.dataset ? Number(text) : text;
}

/** Send a file as it is. @returns {Promise<void>} */
async function put(url, content) {
  const reply = await fetch(url, { method: "PUT", body: content, headers: { accept: "application/json" } });
  if (!reply.ok) throw new Refusal(reply.status, (await reply.json().catch(() => ({}))).error ?? {});
}

/** Hand in the photo of a form, where one is chosen. @returns {Promise<string>} its sha256 */
async function handIn(file, place) {
  if (file.size > LARGEST) throw new Refusal(413, { what: "this photo is too large", allowed: "25 MB", todo: "take a smaller one" });
  const content = await file.arrayBuffer();
  const name = sha256(content);
  await put(place + name, content);
  return name;
}

/** All that a form says, by the names of its fields. @param {HTMLFormElement} form */
async function asked(form) {
  const given = form.dataset.once ? { id: form.dataset.once } : {};
  for (const field of form.elements) {
    if (!field.name) continue;
    const value = field.type === "file" ? field.files[0] && (await handIn(field.files[0], form.dataset.photos)) : said(field);
    if (value !== undefined) given[field.name] = value;
  }
  return given;
}

/** The field that a refusal speaks of, where the form has it. */
function meant(form, where) {
  const name = where.replace(/^--/, "").toLowerCase();
  return [...form.elements].find((field) => field.name === name && field.type !== "hidden");
}

function tell(form, error) {
  form.querySelector("[role=alert]").textContent = error instanceof Refusal ? error.words : error.message;
  const field = meant(form, error.where ?? "");
  if (!field) return;
  field.setAttribute("aria-invalid", "true");
  field.focus();
}

/** Where one goes then: braces are filled from the answer. */
function go(then, answer) {
  if (!then) return location.reload();
  location.assign(then.replace(/\{(\w+)\}/g, (_, name) => encodeURIComponent(answer[name])));
}

/** What a form is for: a whole file to be taken in, or what its fields say. @returns {Promise<any>} the answer */
async function deliver(form) {
  if (!form.dataset.put) return send(form.dataset.send, await asked(form));
  const [file] = form.elements.file.files;
  if (!file) throw new Refusal(400, { what: "no file is chosen", where: "file", todo: "choose one" });
  return put(form.dataset.put, file);
}

async function submit(form) {
  const buttons = form.querySelectorAll("button");
  form.querySelector("[role=alert]").textContent = "";
  for (const field of form.elements) field.removeAttribute("aria-invalid");
  for (const button of buttons) button.disabled = true;
  try {
    go(form.dataset.then, await deliver(form));
  } catch (error) {
    for (const button of buttons) button.disabled = false;
    tell(form, error);
  }
}

/** Show what is asked for what is chosen, and an example of it. @param {HTMLFormElement} form */
function fit(form) {
  const chosen = form.elements.what.selectedOptions[0];
  form.elements.value.placeholder = chosen.dataset.example;
  for (const part of form.querySelectorAll("[data-when]")) part.hidden = !part.dataset.when.split(" ").includes(chosen.value);
}

for (const form of document.querySelectorAll("form.book-form")) {
  // the same form sent twice, by a lost answer, is one entry
  if ("once" in form.dataset) form.dataset.once = uuid();
  if (form.elements.what) {
    form.elements.what.addEventListener("change", () => fit(form));
    fit(form);
  }
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    submit(form);
  });
}
document.documentElement.dataset.ready = "yes";
