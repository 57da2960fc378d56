import { get } from "../desk.js";

const STORES = new WeakMap();
const LOOK_EVERY = 2000;

/** What the job file says, once for the whole page. @param {import("../desk.js").Desk} desk @returns {Store} */
export function storeOf(desk) {
  if (!STORES.has(desk)) STORES.set(desk, new Store(desk));
  return STORES.get(desk);
}

/** The choices of the open job: loaded once, changed one after another, followed on disk. */
export class Store {
  #listeners = new Set();
  #last = Promise.resolve();
  #loading = null;
  #waiting = 0;

  /** @param {import("../desk.js").Desk} desk */
  constructor(desk) {
    this.desk = desk;
    this.document = null;
    this.onlyHere = false;
    this.openText = () => {};
    desk.on("choices", (told) => this.#take(told));
    setInterval(() => this.#look(), LOOK_EVERY);
    document.addEventListener("visibilitychange", () => this.#look());
  }

  /** @param {(document: object) => void} listener called now, if there is something, and after every change */
  listen(listener) {
    this.#listeners.add(listener);
    if (this.document) listener(this.document);
  }

  /** Load once, whoever asks first. */
  load() {
    this.#loading ??= this.desk.get("choices.json").then((told) => this.#take(told));
    return this.#loading;
  }

  /** Ask anew, and tell everybody. */
  async refresh() {
    const told = await this.desk.get("choices.json");
    this.desk.tell("choices", told);
    return told;
  }

  /** @param {string} key @param {string} value @param {string} seen what the field showed */
  choose(key, value, seen) {
    return this.#sent("choices", { key, value, seen, only_here: this.onlyHere });
  }

  /** @param {"undo" | "redo"} which */
  walk(which) {
    return this.#sent(which, {});
  }

  /** @param {string} text of the whole file @param {string} seen sha256 of the one that was looked at */
  put(text, seen) {
    return this.#sent("file.json", { text, seen }, "PUT");
  }

  #sent(path, body, method = "POST") {
    this.#waiting += 1;
    // one after another: a second choice sees what the first has written
    const done = this.#last
      .catch(() => {})
      .then(() => this.desk.send(path, body, method))
      .then((told) => {
        this.desk.tell("choices", told);
        if (told.said) this.desk.say(told.said);
        return told;
      })
      .finally(() => (this.#waiting -= 1));
    this.#last = done;
    return done;
  }

  #take(told) {
    if (!told?.sections) return;
    const unasked = this.document && !told.said && told.sha256 !== this.document.sha256;
    const news = unasked ? { ...told, said: told.undo ?? "the file has changed on disk" } : told;
    this.document = told;
    if (unasked) this.desk.say(`The file has changed on disk: ${news.said}`);
    for (const listener of this.#listeners) listener(news);
  }

  async #look() {
    if (document.visibilityState !== "visible" || !this.document || this.#waiting) return;
    try {
      const before = this.document.sha256;
      const mark = await this.desk.get("mark.json");
      if (this.#waiting || mark.sha256 === before || this.document.sha256 !== before) return;
      await this.refresh();
    } catch {
      // the server is away for a moment: the next look tells
    }
  }
}

/** What a text is read as. @param {string} text @param {string} kind @param {AbortSignal} signal */
export const readAs = (text, kind, signal) => get(`/read.json?text=${encodeURIComponent(text)}&as=${encodeURIComponent(kind)}`, signal);
