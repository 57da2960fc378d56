import { el } from "../dom.js";
import { lotName } from "./lot.js";

const NO_BOOK = "Once this shop has a book, it goes on stock with one press; see the end of this page.";

/**
 * What is left of a sheet, and how it goes on stock.
 * @param {{name: string, left: any[], words: string}} wood @param {boolean} book @param {{send: (path: string, asked: object) => void}} sawing
 */
export function left(wood, book, sawing) {
  const told = wood.left.map((one) => piece(wood.name, one, book, sawing));
  return wood.words ? [...told, el("p", { class: "warn", text: wood.words })] : told;
}

function piece(sheet, one, book, sawing) {
  const asked = { sheet, piece: one.piece };
  const said = el("p", { text: `Left over: ${one.size}.` });
  if (!book) return el("div", { class: "cut-left" }, said, el("p", { class: "quiet", text: NO_BOOK }));
  if (one.lot) {
    said.append(` It is on stock as `, lotName(one.lot, "lot"), ".");
    const back = el("button", { type: "button", text: "Take it off stock again", "aria-label": `Take it off stock again: ${one.size}`, onclick: (event) => press(event.target, () => sawing.send("offcuts/back.json", asked)) });
    return el("div", { class: "cut-left" }, said, el("div", { class: "row" }, back));
  }
  const from = source(sheet, one);
  const put = el("button", { type: "button", class: "first", text: "Put it on stock", "aria-label": `Put it on stock: ${one.size}` });
  put.addEventListener("click", () => press(put, () => sawing.send("offcuts.json", { ...asked, source: from ? Number(from.value) || null : null })));
  const choice = from && el("label", { for: from.id }, "The sheet was", from);
  return el("div", { class: "cut-left" }, said, el("div", { class: "row" }, choice, put));
}

/** Which lot the sheet was, so that the book does not count it twice. */
function source(sheet, { piece: number, lots }) {
  if (!lots.length) return null;
  const likely = lots.some((one) => one.likely);
  const none = el("option", { value: "", text: "not in the book", selected: !likely });
  return el("select", { id: `from-${sheet}-${number}` }, ...lots.map((one, i) => el("option", { value: one.lot, text: one.words, selected: likely && i === 0 })), none);
}

async function press(button, act) {
  button.disabled = true;
  await act();
  button.disabled = false;
}
