/**
 * Make an element.
 * @param {string} tag
 * @param {Record<string, any>} [given] attributes; `text` is content, `on...` listens, null or false leaves out
 * @param {...(Node | string | null | undefined)} inside
 */
export function el(tag, given = {}, ...inside) {
  return filled(document.createElement(tag), given, inside);
}

/** The same in SVG. @param {string} tag @param {Record<string, any>} [given] @param {...(Node | string)} inside */
export function svg(tag, given = {}, ...inside) {
  return filled(document.createElementNS("http://www.w3.org/2000/svg", tag), given, inside);
}

function filled(made, given, inside) {
  for (const [name, value] of Object.entries(given)) {
    if (value === null || value === undefined || value === false) continue;
    if (name === "text") made.textContent = value;
    else if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else made.setAttribute(name, value === true ? "" : String(value));
  }
  made.append(...inside.filter((each) => each !== null && each !== undefined));
  return made;
}

/** A list of label and number. @param {Iterable<[string, string]>} rows */
export function numbers(rows) {
  const list = el("dl", { class: "numbers" });
  for (const [label, value] of rows) list.append(el("dt", { text: label }), el("dd", { text: value }));
  return list;
}

/** A table with its caption. @param {string} caption @param {string[]} heads @param {string[][]} rows */
export function table(caption, heads, rows) {
  const head = el("tr", {}, ...heads.map((text) => el("th", { scope: "col", text })));
  const body = rows.map((row) => el("tr", {}, ...row.map((text, i) => (i ? el("td", { text }) : el("th", { scope: "row", text })))));
  return el(
    "div",
    { class: "scroll", tabindex: "0", role: "region", "aria-label": caption },
    el("table", {}, el("caption", { class: "visually-hidden", text: caption }), el("thead", {}, head), el("tbody", {}, ...body)),
  );
}
