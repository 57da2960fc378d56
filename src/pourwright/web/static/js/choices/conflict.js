import { el } from "../dom.js";

/**
 * Show both values where two hands are on one choice.
 * @param {string} label
 * @param {string} file what the file says
 * @param {string} mine what was typed here
 * @returns {Promise<"mine" | "file" | "">}
 */
export function askBoth(label, file, mine) {
  const dialog = el("dialog", { class: "both", "aria-labelledby": "both-title" });
  const end = (whose) => el("button", { type: "button", class: whose === "mine" ? "first" : null, text: whose === "mine" ? "Keep mine" : "Take the file's", onclick: () => dialog.close(whose) });
  dialog.append(
    el("h2", { id: "both-title", text: `${label} was changed elsewhere` }),
    el("p", { text: "Another tab, or somebody in the file itself, has changed it since you looked. Nothing is lost; which one shall hold?" }),
    el("dl", { class: "numbers" }, el("dt", { text: "The file says" }), el("dd", { text: short(file) }), el("dt", { text: "You wrote" }), el("dd", { text: short(mine) })),
    el("div", { class: "row" }, end("mine"), end("file")),
  );
  document.body.append(dialog);
  dialog.showModal();
  return new Promise((resolve) => {
    dialog.addEventListener("close", () => {
      resolve(dialog.returnValue);
      dialog.remove();
    });
  });
}

const short = (text) => (text.length > 300 ? `${text.slice(0, 300)} …` : text);
