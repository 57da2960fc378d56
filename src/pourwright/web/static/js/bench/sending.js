import { Refusal } from "../desk.js";

const FIRST = 2_000;
const LONGEST = 30_000;
const PATIENCE = 10_000;
const PATIENCE_PHOTO = 60_000;
const AT_ONCE = 100;

async function asked(url, options, patience = PATIENCE) {
  let reply;
  try {
    reply = await fetch(url, { ...options, signal: AbortSignal.timeout(patience) });
  } catch {
    throw new Refusal(0, { what: "the laptop does not answer" });
  }
  const body = await reply.json().catch(() => ({}));
  if (!reply.ok) throw new Refusal(reply.status, body.error ?? {}, body);
  return body;
}

/** Ask for JSON, with an end to the waiting. @param {string} url */
export const ask = (url) => asked(url, { headers: { accept: "application/json" } });

/** Brings what waits to the server, in its order, and tries again for as long as it takes. */
export class Sending {
  #busy = false;
  #again = false;
  #timer = 0;
  #pause = FIRST;

  /**
   * @param {import("./waiting.js").Waiting} waiting
   * @param {(path: string) => string} url of the job
   * @param {{done: () => Promise<void>, failed: (refusal: Refusal) => void}} on
   */
  constructor(waiting, url, on) {
    this.waiting = waiting;
    this.url = url;
    this.on = on;
  }

  /** Send now; one at a time. */
  async go() {
    clearTimeout(this.#timer);
    if (this.#busy) {
      this.#again = true;
      return;
    }
    this.#busy = true;
    try {
      await this.#all();
      this.#pause = FIRST;
      await this.on.done();
    } catch (refusal) {
      this.on.failed(refusal);
      this.#later();
    } finally {
      this.#busy = false;
    }
    if (!this.#again) return;
    this.#again = false;
    await this.go();
  }

  #later() {
    this.#again = false;
    this.#timer = setTimeout(() => this.go(), this.#pause);
    this.#pause = Math.min(2 * this.#pause, LONGEST);
  }

  async #all() {
    for (let some = this.#next(); some.length; some = this.#next()) {
      for (const one of some) if (one.entry.photo) await this.#photo(one);
      await this.#some(some);
    }
  }

  #next() {
    return this.waiting.unsent.slice(0, AT_ONCE);
  }

  async #photo(one) {
    const content = await this.waiting.photo(one);
    if (!content) return;
    try {
      await asked(this.url(`photos/${one.entry.photo}`), { method: "PUT", body: content }, PATIENCE_PHOTO);
    } catch (refusal) {
      // one that is none holds nothing back: its entry is refused next
      if (![400, 413, 422].includes(refusal.status)) throw refusal;
    }
  }

  async #some(some) {
    const body = JSON.stringify({ entries: some.map((one) => one.entry) });
    let told;
    try {
      told = await asked(this.url("entries"), { method: "POST", headers: { "content-type": "application/json" }, body });
    } catch (refusal) {
      if (![413, 422].includes(refusal.status)) throw refusal;
      // one of them has no form that can be read: which?
      if (some.length > 1) for (const one of some) await this.#some([one]);
      else await this.waiting.mark(some[0], { what: refusal.what, todo: refusal.todo });
      return;
    }
    await this.#settle(some, new Map(told.answers.map((answer) => [answer.id, answer])));
  }

  async #settle(some, answers) {
    for (const one of some) {
      const answer = answers.get(one.entry.id);
      if (!answer) throw new Refusal(0, { what: "the laptop has not answered for every entry" });
      if (answer.kept) await this.waiting.drop(one);
      else await this.waiting.mark(one, answer.error);
    }
  }
}
