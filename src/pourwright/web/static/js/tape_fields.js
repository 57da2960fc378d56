import { el } from "./dom.js";
import { VOIDS, ending, having, kindOf, knowing, mixed, ofKind, voidsOf } from "./tape_bands.js";
import { swatch } from "./tape_draw.js";

let ids = 0;

function field(label, control, hint = "") {
  const id = `tape-field-${(ids += 1)}`;
  control.id = id;
  const note = hint ? el("small", { id: `${id}-hint`, class: "quiet", text: hint }) : null;
  if (note) control.setAttribute("aria-describedby", note.id);
  return el("div", { class: "tape-field" }, el("label", { for: id, text: label }), control, note);
}

function select(name, options, chosen, onchange) {
  const made = el("select", { "data-name": name, onchange: (event) => onchange(event.target.value) });
  for (const [value, text] of options) made.append(el("option", { value, text, selected: value === chosen }));
  return made;
}

function input(name, value, onchange, more = {}) {
  const given = { "data-name": name, value, autocomplete: "off", spellcheck: "false", ...more };
  return el("input", { type: "text", ...given, onchange: (event) => onchange(event.target.value.trim()) });
}

/** The fields of one band. */
export class BandFields {
  /**
   * @param {object} tape
   * @param {object} band as the job file has it
   * @param {{place: number, last: boolean, alone: boolean, to: string}} about
   * @param {{change: (band: object) => void, split: () => void, remove: () => void}} does
   */
  constructor(tape, band, about, does) {
    this.tape = tape;
    this.band = band;
    this.about = about;
    this.does = does;
    this.look = el("span", { class: "tape-look" });
    this.name = el("h3", { class: "tape-name", tabindex: "-1" });
    this.reads = el("p", { class: "tape-reads" });
    this.takes = el("p", { class: "tape-takes" });
    this.wrong = el("p", { class: "stop", role: "alert", hidden: true });
    this.to = input("to", about.to, (text) => does.change(ending(this.band, text)), { class: "tape-short" });
    this.root = el(
      "li",
      { class: "tape-band", "data-place": about.place },
      el("div", { class: "tape-title" }, this.look, this.name),
      this.reads,
      this.takes,
      this.wrong,
      this.#main(),
      kindOf(band) === "neat" ? null : this.#more(),
    );
  }

  #main() {
    const row = el("div", { class: "tape-row" });
    if (!this.about.last) row.append(field("Up to", this.to));
    row.append(field("Glass", this.#kind()));
    if (kindOf(this.band) === "mix") row.append(...this.#mix());
    if (kindOf(this.band) !== "neat") row.append(field("Colour", this.#colour()));
    row.append(
      el(
        "div",
        { class: "tape-does" },
        el("button", { type: "button", "data-name": "split", text: "Split", "aria-label": `Split ${this.label} in two`, onclick: this.does.split }),
        this.about.alone
          ? null
          : el("button", { type: "button", "data-name": "remove", text: "Remove", "aria-label": `Remove ${this.label}`, onclick: this.does.remove }),
      ),
    );
    return row;
  }

  get label() {
    return `band ${this.about.place + 1}`;
  }

  #kind() {
    const grades = this.tape.grades.map((grade) => [grade.id, grade.name]);
    const kind = kindOf(this.band);
    const options = [["neat", "neat resin, no glass"], ...grades];
    if (grades.length > 1) options.push(["mix", "two grades mixed"]);
    if (kind === "many") options.push(["many", `${this.band.mix.length} grades mixed, in the job file`]);
    return select("kind", options, kind, (value) => {
      if (value !== "many") this.does.change(ofKind(this.band, value, this.tape.grades.map((grade) => grade.id)), true);
    });
  }

  #mix() {
    const grades = this.tape.grades.map((grade) => [grade.id, grade.id]);
    const [one, other] = this.band.mix;
    const change = (changes) => this.does.change(mixed(this.band, changes));
    const share = input("share", `${Math.round(one.share * 100)} %`, (text) => change({ share: percent(text) }), { class: "tape-short", inputmode: "decimal" });
    return [
      field("of", select("first", grades, one.grade, (first) => change({ first }))),
      field("share of it", share),
      field("with", select("second", grades, other.grade, (second) => change({ second }))),
    ];
  }

  #colour() {
    return input("colour", this.band.colour ?? "", (text) => this.does.change(having(this.band, "colour", text)), {
      list: "tape-colours",
      placeholder: "any",
    });
  }

  #more() {
    const way = voidsOf(this.band);
    const ways = Object.entries(VOIDS);
    const known = way !== "record" || this.band.tapped || this.band.soft;
    const box = el("input", {
      type: "checkbox",
      "data-name": "tapped",
      checked: Boolean(this.band.tapped),
      onchange: (event) => this.does.change(having(this.band, "tapped", event.target.checked)),
    });
    return el(
      "details",
      { open: Boolean(known) && way !== "record" },
      el("summary", { text: "Voids, tapping, soft border" }),
      el(
        "div",
        { class: "tape-row" },
        field("Room between the grains", select("voids", ways, way, (value) => this.#know(value)), this.source ?? ""),
        ...this.#knowing(way),
        field("Tapped down", box),
        this.about.last ? null : field("Soft border over", this.#soft(), "a depth; empty for a sharp one"),
      ),
    );
  }

  #soft() {
    return input("soft", this.band.soft ?? "", (text) => this.does.change(having(this.band, "soft", text)), { class: "tape-short" });
  }

  #know(way) {
    if (way === "record") this.does.change(knowing(this.band, way, {}), true);
    else if (way === "share") this.does.change(knowing(this.band, way, { share: Number(this.voids?.toFixed(2) ?? 0.45) }), true);
    else this.#ask(way);
  }

  /** A bucket test is not invented: its fields stand empty until both are filled. */
  #ask(way) {
    const place = this.root.querySelector("details .tape-row");
    place.querySelectorAll("[data-test]").forEach((one) => one.remove());
    const fields = this.#test(way, {}, (test) => test.volume && test[way] && this.does.change(knowing(this.band, way, test), true));
    place.children[0].after(...fields);
    fields[0].querySelector("input").focus();
  }

  #knowing(way) {
    if (way === "share") {
      const share = input("void", `${Math.round(this.band.void_fraction * 100)} %`, (text) => this.does.change(knowing(this.band, way, { share: percent(text) })), {
        class: "tape-short",
        inputmode: "decimal",
      });
      return [field("Share of the room", share)];
    }
    if (way === "record") return [];
    return this.#test(way, this.band.bucket_test, (test) => this.does.change(knowing(this.band, way, test)));
  }

  #test(way, given, done) {
    const test = { volume: given.volume ?? "", [way]: given[way] ?? "" };
    const put = (name) => (text) => {
      test[name] = text;
      done(test);
    };
    const first = way === "mass" ? "Glass alone weighs" : "Water it takes up";
    const fields = [
      field("Bucket to its brim", input("volume", test.volume, put("volume"), { class: "tape-short" })),
      field(first, input(way, test[way], put(way), { class: "tape-short" })),
    ];
    fields.forEach((one) => (one.dataset.test = "yes"));
    return fields;
  }

  /** Show what was reckoned. @param {object} told @param {boolean} flipped @param {string} [refused] */
  show(told, flipped, refused = "") {
    this.wrong.hidden = !refused;
    this.wrong.textContent = refused;
    if (!told) return;
    this.voids = told.void_fraction;
    this.name.textContent = `${told.name}: ${told.called}`;
    this.look.replaceChildren(swatch(told));
    const { lower, upper } = told;
    const stands = flipped ? `, ${lower.standing_text} down to ${upper.standing_text} as it stands` : "";
    this.reads.textContent = `${lower.text} to ${upper.text} up from the floor of the mold${stands}`;
    this.takes.replaceChildren(...takes(told));
    if (document.activeElement !== this.to && told.written !== "top") this.to.value = told.written;
  }
}

function takes(told) {
  const parts = [
    ["glass", told.glass_text],
    ["resin", told.resin_text],
    ["", told.bottles_text],
    ["voids", told.kind === "glass" ? told.void_text : ""],
    ["", told.batches_text],
  ];
  return parts
    .filter(([, text]) => text)
    .map(([label, text]) => el("span", {}, el("strong", { text }), label ? ` ${label}` : ""));
}

function percent(text) {
  const number = Number.parseFloat(text.replace("%", "").replace(",", ".").trim());
  if (!Number.isFinite(number)) return text;
  return Number((number > 1 || text.includes("%") ? number / 100 : number).toFixed(4));
}
