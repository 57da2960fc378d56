/** A refusal of the server, with its words. */
export class Refusal extends Error {
  /** @param {number} status @param {{what?: string, where?: string, allowed?: string, todo?: string}} error @param {object} body */
  constructor(status, error, body = {}) {
    super(error.what ?? `the server answered ${status}`);
    this.status = status;
    this.what = error.what ?? this.message;
    this.where = error.where ?? "";
    this.allowed = error.allowed ?? "";
    this.todo = error.todo ?? "";
    this.body = body;
  }

  /** One sentence for a person. */
  get words() {
    const allowed = this.allowed ? ` Allowed: ${this.allowed}.` : "";
    const todo = this.todo ? ` Next: ${this.todo}.` : "";
    return `${this.what}.${allowed}${todo}`;
  }
}

async function answerOf(reply) {
  const body = await reply.json().catch(() => ({}));
  if (!reply.ok) throw new Refusal(reply.status, body.error ?? {}, body);
  return body;
}

async function asked(url, options) {
  let reply;
  try {
    reply = await fetch(url, options);
  } catch (error) {
    if (error.name === "AbortError") throw error;
    throw new Refusal(0, { what: "the server does not answer", todo: "start it again with: pourwright serve" });
  }
  return answerOf(reply);
}

/** Ask for JSON. @param {string} url @param {AbortSignal} [signal] */
export const get = (url, signal) => asked(url, { signal, headers: { accept: "application/json" } });

/** Send JSON. @param {string} url @param {unknown} body @param {string} [method] @param {AbortSignal} [signal] */
export const send = (url, body, method = "POST", signal = undefined) =>
  asked(url, { method, signal, headers: { "content-type": "application/json", accept: "application/json" }, body: JSON.stringify(body) });

/** One open job: where its answers come from, and who is told of what. */
export class Desk {
  #target = new EventTarget();

  /** @param {HTMLElement} root */
  constructor(root) {
    this.root = root;
    this.job = root.dataset.job;
    this.variant = root.dataset.variant;
    this.units = root.dataset.units;
  }

  /** @param {string} path as `answers.json` or `charts/heat.csv` */
  url(path) {
    const mark = path.includes("?") ? "&" : "?";
    return `/jobs/${encodeURIComponent(this.job)}/${path}${mark}variant=${encodeURIComponent(this.variant)}`;
  }

  /** @param {string} path @param {AbortSignal} [signal] */
  get(path, signal) {
    return get(this.url(path), signal);
  }

  /** @param {string} path @param {unknown} body @param {string} [method] @param {AbortSignal} [signal] */
  send(path, body, method, signal) {
    return send(this.url(path), body, method, signal);
  }

  /** @param {string} event @param {(detail: any) => void} listener */
  on(event, listener) {
    this.#target.addEventListener(event, (told) => listener(told.detail));
  }

  /** @param {string} event @param {any} [detail] */
  tell(event, detail) {
    this.#target.dispatchEvent(new CustomEvent(event, { detail }));
  }

  /** Say something to whoever cannot see it. @param {string} words */
  say(words) {
    const place = document.getElementById("said");
    if (place) place.textContent = words;
  }
}
