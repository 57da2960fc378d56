import { el, table } from "./dom.js";

const WORDS = { stop: "stop", mind: "mind", ok: "fine" };
const PAUSE = 1000;
const SOON = 200;
const boards = new WeakMap();

/** Show the cheap answers of one section. @param {HTMLElement} root @param {import("./desk.js").Desk} desk */
export function mount(root, desk) {
  if (!boards.has(desk)) boards.set(desk, new Board(desk));
  boards.get(desk).add(root);
}

const live = (run) => run?.state === "waiting" || run?.state === "running";
const sleep = (time) => new Promise((resolve) => setTimeout(resolve, time));

/** Asks for the answers once for all sections, and keeps the last ones where there are no new ones yet. */
class Board {
  #places = [];
  #desk;
  #busy = null;
  #again = false;
  #caring = false;
  #choices = 0;
  #given = -1;
  #mine = "";

  constructor(desk) {
    this.#desk = desk;
    desk.on("choices", () => {
      this.#choices += 1;
      this.refresh();
    });
  }

  add(root) {
    root.classList.add("answers", "sheet");
    root.replaceChildren(el("p", { class: "quiet", text: "The first numbers are being reckoned." }));
    this.#places.push(root);
    // five places are mounted at a time, and ask once
    if (this.#places.length === 1) queueMicrotask(() => this.refresh());
  }

  /** One request in flight; who asks meanwhile is answered by the one after it. */
  refresh() {
    if (this.#busy) {
      this.#again = true;
      return this.#busy;
    }
    this.#busy = this.#ask().finally(() => {
      this.#busy = null;
      if (this.#again) {
        this.#again = false;
        this.refresh();
      }
    });
    return this.#busy;
  }

  async #ask() {
    const slow = setTimeout(() => this.#places.forEach(waiting), SOON);
    try {
      const told = await this.#desk.get("answers.json");
      this.#places.forEach((place, number) => fill(place, told, number === 0));
      this.#desk.tell("answers", told);
      if (told.state === "starting") sleep(PAUSE).then(() => this.refresh());
      if (told.wants.length) this.#care(told.wants);
    } catch (error) {
      this.#places.forEach((place) => mark(place, error.words ?? String(error)));
    } finally {
      clearTimeout(slow);
    }
  }

  /** See that what would make old answers new is done, once for each state of the choices. */
  async #care(kinds) {
    if (this.#caring) return;
    this.#caring = true;
    try {
      for (const what of kinds) await this.#done(what);
    } catch (error) {
      this.#places.forEach((place) => mark(place, error.words ?? String(error)));
    } finally {
      this.#caring = false;
    }
  }

  async #done(what) {
    for (;;) {
      const run = (await this.#desk.get("runs.json")).runs.find((one) => one.what === what);
      if (live(run)) await sleep(PAUSE);
      else if (run && run.id === this.#mine) return this.#ended(run);
      else if (this.#given === this.#choices) return undefined;
      else await this.#begin(what);
    }
  }

  async #begin(what) {
    this.#given = this.#choices;
    try {
      const run = await this.#desk.send("runs", { what });
      this.#mine = run.id;
      this.#desk.tell("run", run);
    } catch (error) {
      if (error.status !== 409) throw error;
      this.#given = -1;
      await sleep(PAUSE);
    }
  }

  #ended(run) {
    this.#mine = "";
    if (run.state === "done") this.refresh();
    else if (run.error) this.#places.slice(0, 1).forEach((place) => place.prepend(wrong(run.error)));
    return undefined;
  }
}

function waiting(place) {
  if (place.querySelector(".numbers")) mark(place, "being reckoned anew");
  else place.replaceChildren(el("p", { class: "quiet", text: "The first numbers are being reckoned." }));
}

/** Say over answers that they are old, without taking them away. */
function mark(place, why, what = "Old") {
  place.classList.add("old");
  let word = place.querySelector(":scope > .old-word");
  if (!word) {
    word = el("p", { class: "old-word", role: "status" });
    place.prepend(word);
  }
  word.textContent = `${what}: ${why}`;
}

function fill(place, told, first) {
  const name = place.dataset.section;
  const section = told.sections[name];
  const kept = new Set([...place.querySelectorAll("details[open]")].map((one) => one.dataset.key));
  place.classList.remove("old");
  place.replaceChildren(...[first ? wrong(told.error) : null, ...(section ? body(section, told, name) : [none(told)])].filter(Boolean));
  for (const one of place.querySelectorAll("details")) if (kept.has(one.dataset.key)) one.open = true;
  if (section && told.old) mark(place, told.old);
  else if (section && section.old) mark(place, section.old, "Not all of it yet");
}

function none(told) {
  const words = {
    reading: "The shape is being read for the first time. The numbers come by themselves.",
    starting: "The program is getting ready; the first time on this computer it compiles, for a minute or two. The numbers come by themselves.",
    error: "No numbers yet: the job file has to be mended first.",
  };
  return el("p", { class: "quiet", text: words[told.state] ?? "No numbers." });
}

function wrong(error) {
  if (!error) return null;
  const rest = [error.where, error.allowed && `Allowed: ${error.allowed}`, error.todo && `Next: ${error.todo}`];
  return el(
    "div",
    { class: "wrong", role: "alert" },
    el("p", { class: "stop", text: `Refused: ${error.what}` }),
    ...rest.filter(Boolean).map((text) => el("p", { text })),
  );
}

function body(section, told, name) {
  return [
    numbers(section.numbers),
    ...section.notes.map((text) => el("p", { class: "quiet", text })),
    ...section.tables.map(folded),
    findings(told.findings.filter((one) => one.section === name)),
  ].filter(Boolean);
}

function numbers(list) {
  const rows = list.flatMap((one) => [
    el("dt", { text: one.label }),
    el("dd", { "data-key": one.key }, one.text, one.note ? el("span", { class: "note", text: one.note }) : null),
  ]);
  return el("dl", { class: "numbers" }, ...rows);
}

function folded(one) {
  const heads = one.heads.map((head) => head.label);
  const rows = one.rows.map((row) => row.map((cell) => cell.text));
  return el(
    "details",
    { "data-key": one.key },
    el("summary", { text: `${one.caption} (${rows.length})` }),
    table(one.caption, heads, rows),
  );
}

function findings(list) {
  const told = list.filter((one) => one.level !== "ok");
  const fine = list.filter((one) => one.level === "ok");
  if (!list.length) return null;
  return el(
    "div",
    { class: "findings" },
    told.length ? el("ul", {}, ...told.map(finding)) : null,
    fine.length
      ? el(
          "details",
          { "data-key": "fine" },
          el("summary", { text: fine.length === 1 ? "1 thing is fine" : `${fine.length} things are fine` }),
          el("ul", {}, ...fine.map(finding)),
        )
      : null,
  );
}

const CLASSES = { stop: "stop", mind: "warn", ok: "good" };

function finding(one) {
  return el(
    "li",
    { "data-level": one.level },
    el("span", { class: `level ${CLASSES[one.level]}`, text: WORDS[one.level] }),
    " ",
    el("span", { text: one.text }),
  );
}
