import { el } from "../dom.js";

/** One page, large; left and right go on, Esc closes. */
export class Leaf {
  /** @param {(sheet: string, page: number) => string} address */
  constructor(address) {
    this.address = address;
    this.words = el("p", { "aria-live": "polite" });
    this.picture = el("img", { alt: "" });
    this.back = el("button", { type: "button", text: "← Page before", onclick: () => this.#turn(-1) });
    this.on = el("button", { type: "button", text: "Next page →", onclick: () => this.#turn(1) });
    const close = el("button", { type: "button", text: "Close", onclick: () => this.dialog.close() });
    this.frame = el("div", { class: "frame", tabindex: "0", role: "group", "aria-label": "The page" }, this.picture);
    this.dialog = el("dialog", { class: "leaf", "aria-label": "A page of a sheet" }, el("div", { class: "doing" }, this.words, this.back, this.on, close), this.frame);
    this.dialog.addEventListener("keydown", (event) => this.#key(event));
  }

  /** @param {{name: string, title: string, pages: number}} sheet @param {number} page */
  open(sheet, page) {
    this.sheet = sheet;
    this.#show(page);
    this.dialog.showModal();
    this.frame.focus();
  }

  #key(event) {
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (!step) return;
    event.preventDefault();
    this.#turn(step);
  }

  #turn(step) {
    this.#show(Math.min(Math.max(this.page + step, 1), this.sheet.pages));
  }

  #show(page) {
    this.page = page;
    const words = `${this.sheet.title}, page ${page} of ${this.sheet.pages}`;
    this.words.textContent = words;
    this.picture.alt = `${words}; its words are in the PDF`;
    this.picture.src = this.address(this.sheet.name, page);
    this.back.disabled = page === 1;
    this.on.disabled = page === this.sheet.pages;
    this.frame.scrollTop = 0;
  }
}
