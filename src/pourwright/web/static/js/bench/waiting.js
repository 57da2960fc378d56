/** What the phone holds until the server has it: on the phone's own disk, in the order in which it was entered. */
const NAME = "pourwright-bench";

const done = (asked) =>
  new Promise((resolve, reject) => {
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });

const settled = (change) =>
  new Promise((resolve, reject) => {
    change.oncomplete = () => resolve();
    change.onerror = change.onabort = () => reject(change.error);
  });

function opened() {
  const asked = indexedDB.open(NAME, 1);
  asked.onupgradeneeded = () => {
    asked.result.createObjectStore("entries", { keyPath: "order", autoIncrement: true });
    asked.result.createObjectStore("photos", { keyPath: "hash" });
  };
  return done(asked);
}

/** Entries and photos of one job that wait. */
export class Waiting {
  #disk = null;

  /** @param {string} job */
  constructor(job) {
    this.job = job;
    /** @type {{order: number, job: string, entry: any, shown: string, refused: any, sent?: boolean}[]} */
    this.held = [];
    this.safe = true;
  }

  /** Read what waits from before. */
  async open() {
    try {
      this.#disk = await opened();
      const all = await done(this.#disk.transaction("entries").objectStore("entries").getAll());
      this.held = all.filter((one) => one.job === this.job);
    } catch {
      // a private window may have no disk: it is held while the page is open
      this.safe = false;
    }
  }

  /** Those that the server has not answered yet. */
  get unsent() {
    return this.held.filter((one) => !one.sent && !one.refused);
  }

  /** Those that it does not take. */
  get refused() {
    return this.held.filter((one) => one.refused);
  }

  /** Hold an entry; on the phone's disk when this returns. @param {any} entry @param {string} shown @param {ArrayBuffer} [photo] */
  async add(entry, shown, photo) {
    const one = { job: this.job, entry, shown, refused: null };
    if (this.#disk) await this.#kept(one, photo);
    else Object.assign(one, { order: this.held.length + 1, photo });
    this.held.push(one);
    return one;
  }

  async #kept(one, photo) {
    const change = this.#disk.transaction(["entries", "photos"], "readwrite", { durability: "strict" });
    if (photo) change.objectStore("photos").put({ hash: one.entry.photo, content: photo });
    const asked = change.objectStore("entries").add(one);
    await settled(change);
    one.order = asked.result;
  }

  /** @param {any} one its entry names a photo */
  async photo(one) {
    if (!this.#disk) return one.photo ?? null;
    const kept = await done(this.#disk.transaction("photos").objectStore("photos").get(one.entry.photo));
    return kept?.content ?? null;
  }

  /** The server has it. @param {any} one */
  async drop(one) {
    if (this.#disk) {
      const change = this.#disk.transaction(["entries", "photos"], "readwrite");
      change.objectStore("entries").delete(one.order);
      const others = this.held.some((other) => other !== one && !other.sent && other.entry.photo === one.entry.photo);
      if (one.entry.photo && !others) change.objectStore("photos").delete(one.entry.photo);
      await settled(change);
    }
    one.sent = true;
  }

  /** The server does not take it; or, with null, it is to be sent again. @param {any} one @param {any} refused */
  async mark(one, refused) {
    one.refused = refused;
    if (!this.#disk) return;
    const change = this.#disk.transaction("entries", "readwrite");
    change.objectStore("entries").put(one);
    await settled(change);
  }

  /** Put a refused one away for good. @param {any} one */
  async forget(one) {
    await this.drop(one);
    this.held = this.held.filter((other) => other !== one);
  }

  /** Let go of what the server tells by itself now. @param {Set<string>} ids */
  told(ids) {
    this.held = this.held.filter((one) => !(one.sent && ids.has(one.entry.id)));
  }
}
