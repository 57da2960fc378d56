import { el } from "../dom.js";

/** A lot by its number; on the laptop it leads to its page, which a phone does not reach. @param {number} lot @param {string} word */
export function lotName(lot, word) {
  const phone = "phone" in document.getElementById("cut").dataset;
  return phone ? `${word} ${lot}` : el("a", { href: `/book/stock/${lot}`, text: `${word} ${lot}` });
}
