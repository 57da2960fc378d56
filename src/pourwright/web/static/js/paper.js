import { el } from "./dom.js";
import { Leaf } from "./paper/leaf.js";
import { oldWords } from "./paper/old.js";

/** Put the sheets of the job on the page. @param {HTMLElement} root @param {import("./desk.js").Desk} desk */
export async function mount(root, desk) {
  const paper = new Paper(root, desk);
  for (const event of ["plan", "choices", "mold"]) desk.on(event, () => paper.renew());
  await paper.renew();
}

class Paper {
  #asked = 0;
  #shown = "";

  constructor(root, desk) {
    this.root = root;
    this.desk = desk;
    this.place = el("div", { class: "papers" });
    this.leaf = new Leaf((sheet, page) => desk.url(`sheets/${sheet}/${page}.png?size=large`));
    root.classList.remove("papers");
    root.append(this.place, this.leaf.dialog);
  }

  /** Ask what there is, and show it where it is something else. */
  async renew() {
    const mine = ++this.#asked;
    let told;
    try {
      told = await this.desk.get("sheets.json");
    } catch (refusal) {
      if (mine === this.#asked) this.#refused(refusal);
      return;
    }
    const text = JSON.stringify(told);
    if (mine !== this.#asked || text === this.#shown) return;
    this.#shown = text;
    this.#build(told);
  }

  #refused(refusal) {
    this.#shown = "";
    this.place.replaceChildren(el("p", { class: "stop", text: refusal.words ?? refusal.message }));
  }

  #build(told) {
    const planned = told.sheets.some((sheet) => sheet.name === "plan");
    const first = planned ? null : el("div", { class: "sheet" }, el("h3", { text: "Pour plan" }), el("p", { text: "No plan yet: make the plan first. Its sheets, the calendar file and all its files come with it; mold and fill can be printed before." }));
    this.place.replaceChildren(...[first, ...told.sheets.map((sheet) => this.#card(sheet, told)), this.#files(told)].filter(Boolean));
  }

  #card(sheet, told) {
    const calendar = sheet.name === "plan" && told.calendar;
    const id = `h-sheet-${sheet.name}`;
    return el(
      "section",
      { class: `sheet${sheet.old ? " old" : ""}`, "aria-labelledby": id, "data-sheet": sheet.name },
      el("h3", { id, text: sheet.title }),
      sheet.old ? el("div", { class: "old-word" }, ...oldWords("Old: the job has changed, or the shop has learnt anew, since it was made.", sheet.because)) : null,
      el("p", { text: sheet.words }),
      sheet.pages ? el("p", { class: "quiet", text: [`${sheet.pages} ${sheet.pages === 1 ? "page" : "pages"}, ${sheet.paper}`, sheet.made ? `made ${sheet.made}` : ""].filter(Boolean).join(", ") }) : null,
      el("div", { class: "doing" }, ...this.#doing(sheet), calendar ? el("a", { class: "button", href: this.desk.url("calendar.ics"), download: true, text: "Calendar file" }) : null),
      sheet.pages ? this.#pages(sheet, told) : null,
    );
  }

  #doing(sheet) {
    const doing = [];
    if (sheet.pages) doing.push(el("a", { class: "button", href: this.desk.url(`sheets/${sheet.name}.pdf`), target: "_blank", rel: "noopener", text: `Open the PDF`, "aria-label": `Open the PDF: ${sheet.title}` }));
    if (sheet.can_make && (!sheet.pages || sheet.old)) doing.push(this.#maker(sheet));
    return doing;
  }

  #maker(sheet) {
    const words = sheet.pages ? "Make it again" : "Make it now";
    const button = el("button", { type: "button", text: words, "aria-label": `${words}: ${sheet.title}` });
    const said = el("span", { role: "status", class: "quiet", text: "takes some seconds" });
    button.addEventListener("click", () => this.#make(sheet, button, said));
    return el("span", { class: "doing" }, button, said);
  }

  async #make(sheet, button, said) {
    button.disabled = true;
    said.textContent = "is being made ...";
    try {
      const reply = await fetch(this.desk.url(`sheets/${sheet.name}.pdf?fresh=true`));
      if (!reply.ok) {
        const { error } = await reply.json();
        said.className = "stop";
        said.textContent = [error.where, error.what, error.todo && `Next: ${error.todo}`].filter(Boolean).join(". ");
        return;
      }
      await reply.arrayBuffer();
      await this.renew();
    } catch {
      said.className = "stop";
      said.textContent = "the server does not answer";
    } finally {
      button.disabled = false;
    }
  }

  #pages(sheet, told) {
    const list = el("ol", { class: "pages" });
    // another plan has other pages under the same address
    const since = encodeURIComponent(`${sheet.made}${sheet.size}`);
    for (let page = 1; page <= sheet.pages; page += 1) {
      const src = this.desk.url(`sheets/${sheet.name}/${page}.png?size=small&since=${since}`);
      const picture = el("img", { src, alt: "", loading: "lazy", width: 397, height: sheet.paper === "A4" ? 561 : 514 });
      const open = () => this.leaf.open(sheet, page);
      list.append(el("li", {}, el("button", { type: "button", class: "thumb", onclick: open, "aria-label": `${sheet.title}, page ${page}: enlarge` }, picture, el("span", { text: String(page) }))));
    }
    return list;
  }

  #files(told) {
    if (!told.files.length) return null;
    const entry = (file) => {
      const href = this.desk.url(`files/${file.name.split("/").map(encodeURIComponent).join("/")}`);
      return el("li", {}, el("a", { href, download: true, text: file.name }), el("span", { class: "quiet", text: file.words ? `${file.words}; ${file.size_text}` : file.size_text }));
    };
    return el("section", { class: "sheet" }, el("details", {}, el("summary", { text: `All ${told.files.length} files of the plan` }), el("ul", { class: "files" }, ...told.files.map(entry))));
  }
}
