/** The picture of one job and what one does with it. */

import { el } from "../dom.js";
import { packedFrom } from "./bytes.js";
import { Controls } from "./controls.js";
import { Handle } from "./handle.js";
import { Heat } from "./heat.js";
import { classes, heatScale, shaded } from "./legend.js";
import { Orbit } from "./orbit.js";
import { Pointer } from "./pointer.js";
import { Stage } from "./scene.js";

const CASTING = new Set(["piece", "band", "pour"]);
const MANY = 20_000; // triangles from which on there is a coarse body too
const TINTS = new Set(["draft", "undercut", "thickness"]);

export class View {
  /** @param {any} three @param {HTMLElement} room @param {HTMLElement} status @param {import("../desk.js").Desk} desk */
  constructor(three, room, status, desk) {
    Object.assign(this, { three, room, status, desk, heat: null, told: null, shown: new Set(), colour: "material", quantity: "" });
    this.coming = new Map();
    this.canvas = el("canvas", { class: "view-canvas", tabindex: "0", role: "application" });
    this.canvas.setAttribute("aria-label", "Piece and mold in space. Arrow keys turn it, plus and minus come nearer, 0 shows the whole.");
    this.legend = el("div", {});
    this.picture = el("div", { class: "view-picture" }, this.canvas);
    this.stage = new Stage(three, this.canvas);
    this.orbit = new Orbit(this.canvas, () => this.stage.draw());
    this.handle = new Handle(this.stage, (at, when) => this.controls.cutAt(at, when));
    this.pointer = new Pointer(this);
    this.controls = new Controls(this);
    this.picture.append(this.handle.node, this.pointer.cross);
    this.#lay();
    this.stage.drawn = () => this.#drawn();
    this.stage.lookFrom(this.orbit);
    new ResizeObserver(() => this.stage.draw()).observe(this.canvas);
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => this.#tokens());
    this.#tokens();
  }

  #lay() {
    const left = el("div", { class: "view-left" }, this.picture, this.controls.looks, this.pointer.node, this.legend);
    this.room.replaceChildren(el("div", { class: "view-columns" }, left, this.controls.node));
  }

  #tokens() {
    const accent = getComputedStyle(this.canvas).getPropertyValue("--accent").trim();
    const wide = /^#[0-9a-f]{6}$/i.test(accent) ? accent : "#1a4d6d";
    this.stage.colours = { ink: [0.16, 0.15, 0.13], empty: [0.93, 0.93, 0.92], accent: [1, 3, 5].map((at) => parseInt(wide.slice(at, at + 2), 16) / 255) };
    this.stage.draw();
  }

  /** Ask what there is now; draw what has changed. */
  async refresh() {
    this.status.textContent = this.told ? "Looking whether the view is still right…" : "Making piece and mold…";
    this.room.toggleAttribute("data-busy", true);
    try {
      const told = await this.desk.get("view.json");
      if (told.fingerprint !== this.told?.fingerprint) await this.#take(told);
      this.status.textContent = told.shown_off_m ? told.shown : "";
      this.room.classList.remove("old");
      await this.#takeHeat(told);
    } catch (error) {
      this.room.classList.toggle("old", Boolean(this.told));
      if (!this.told) throw error;
      this.status.textContent = `The view is that of the choices before: ${error.words ?? error.message}`;
    } finally {
      this.room.toggleAttribute("data-busy", false);
    }
  }

  async #take(told) {
    for (const id of [...this.stage.bodies.keys()]) this.stage.remove(id);
    this.coming.clear();
    this.surface = null;
    this.told = told;
    this.controls.fill(told);
    await this.settled;
  }

  async #takeHeat(told) {
    const heat = told.heat ? await this.desk.get("heat.json").catch(() => null) : null;
    this.heat = heat && new Heat(this.three, this.desk, heat);
    this.controls.fillHeat(heat);
    await this.repaint();
  }

  /** Show these parts and no others. @param {Set<string>} ids */
  show(ids) {
    this.shown = ids;
    this.#meanwhile(ids);
    this.settled = this.#fetch(ids).then(() => {
      if (this.shown !== ids) return;
      this.stage.show(ids);
      this.#legend();
      this.#paintHeat();
      this.pointer.again();
    });
    this.settled.catch((error) => (this.status.textContent = `A part could not be shown: ${error.message}`));
    return this.settled;
  }

  /** What is there already; the piece stands for its tinted surface until that is measured. */
  #meanwhile(ids) {
    const there = [...ids].filter((id) => this.stage.bodies.has(id));
    if (ids.has("surface") && !there.includes("surface")) there.push("piece");
    if (there.length) this.stage.show(new Set(there));
  }

  #fetch(ids) {
    return Promise.all([...ids].map((id) => (id === "surface" ? this.#surface() : this.#body(id))));
  }

  #body(id) {
    if (!this.coming.has(id)) this.coming.set(id, this.#load(id));
    return this.coming.get(id);
  }

  async #load(id) {
    const { told } = this;
    const { arrays } = await packedFrom(this.desk, `view/${id}.bin`);
    if (this.told !== told) return;
    const part = told.parts.find((each) => each.id === id);
    this.stage.add(part, arrays.positions.data, arrays.corners.data);
    if (part.triangles > MANY) this.#loadCoarse(id, told);
  }

  /** Large bodies have a small one beside them, for computers that draw slowly. */
  async #loadCoarse(id, told) {
    const { arrays } = await packedFrom(this.desk, `view/${id}.bin?coarse=true`).catch(() => ({ arrays: null }));
    if (arrays && this.told === told) this.stage.addCoarse(id, arrays.positions.data, arrays.corners.data);
  }

  /** The piece's surface with the tint that is chosen. */
  async #surface() {
    const { colour, told } = this;
    if (this.stage.bodies.has("surface") && this.tinted === colour) return;
    this.status.textContent = "Measuring every face…";
    const asked = [this.surface ?? packedFrom(this.desk, "view/surface.bin"), packedFrom(this.desk, `view/tint/${colour}.bin`)];
    const [surface, values] = await Promise.all(asked);
    this.status.textContent = told.shown_off_m ? told.shown : "";
    if (this.told !== told || this.colour !== colour) return;
    this.surface = surface;
    const piece = told.parts.find((part) => part.id === "piece");
    this.stage.add({ ...piece, id: "surface" }, surface.arrays.positions.data, surface.arrays.corners.data, values.arrays.values.data);
    this.stage.tint("surface", shaded(told.tints[colour]));
    this.tinted = colour;
  }

  /** @param {string} colour material, band, pour, or a tint */
  colourBy(colour) {
    const before = TINTS.has(this.colour);
    this.colour = colour;
    if (TINTS.has(colour) !== before) this.controls.bare(TINTS.has(colour));
    this.controls.parts.as(colour === "material" ? "piece" : TINTS.has(colour) ? "surface" : colour);
  }

  /** @param {{axis: string, at: number} | null} cut @param {number} [when] of the event that asked for it */
  slice(cut, when = undefined) {
    this.stage.slice(cut);
    this.#timed("view-cut", when);
    this.#heatLater();
  }

  /** @param {number} share @param {number} [when] */
  pull(share, when = undefined) {
    this.stage.pull(share);
    this.#timed("view-apart", when);
  }

  /** @param {number} moment @param {number} [when] */
  moment(moment, when = undefined) {
    this.heat?.choose(moment, this.quantity);
    this.#paintHeat();
    this.pointer.again();
    this.#timed("view-time", when);
  }

  /** @param {string} quantity temperature, cured, or nothing */
  async paintBy(quantity) {
    this.quantity = quantity;
    await this.repaint();
  }

  async repaint() {
    if (this.heat && this.quantity) this.heat.choose(this.controls.moment, this.quantity);
    this.#legend();
    await this.#heatNow();
  }

  #heatLater() {
    if (!this.hot) return;
    this.#paintHeat();
    clearTimeout(this.later);
    this.later = setTimeout(() => this.#heatNow(), 120);
  }

  /** Whether heat is wanted and there is any. */
  get hot() {
    return Boolean(this.heat && this.quantity && this.stage.cut);
  }

  async #heatNow() {
    const { cut } = this.stage;
    if (this.hot && this.heat.meets(cut) && this.heat.film?.cut !== cut) {
      try {
        await this.heat.load(cut);
      } catch (error) {
        if (error.name !== "AbortError") this.controls.heatSays(`The heat could not be read: ${error.message}`);
      }
    }
    this.#paintHeat();
  }

  /** Heat is painted only where it belongs to the cut that is shown. */
  #paintHeat() {
    const ready = this.hot && this.heat.film?.cut === this.stage.cut;
    const values = ready ? this.heat.uniforms() : null;
    this.stage.paint((body) => (CASTING.has(body.part.kind) ? values : null));
    if (this.hot) this.controls.heatSays(ready ? "" : this.heat.meets(this.stage.cut) ? "Reading the heat on this cut…" : "This cut misses the casting.");
  }

  #legend() {
    const parts = [];
    const { told, colour } = this;
    if (!told) return;
    if (TINTS.has(colour) && this.shown.has("surface")) parts.push(classes(told.tints[colour].words, told.tints[colour].classes));
    else if (told.parts.some((part) => part.kind === colour && this.shown.has(part.id))) parts.push(classes(colour === "band" ? "Bands" : "Pours", this.#rows(colour)));
    if (this.heat && this.quantity) parts.push(heatScale(this.heat.told[this.quantity], this.#ends()));
    this.legend.replaceChildren(...parts);
  }

  #rows(kind) {
    const rows = this.told.parts.filter((part) => part.kind === kind).reverse();
    return rows.map((part) => ({ text: [part.words, part.heights, part.mass].filter(Boolean).join(", "), colour: part.tone, pattern: part.pattern }));
  }

  #ends() {
    const scale = this.heat.told[this.quantity];
    return [scale.low_degC ?? scale.low, scale.high_degC ?? scale.high];
  }

  #drawn() {
    this.handle.place();
    this.pointer.place();
  }

  /** Leave a measure of how long it took from the hand to the picture. */
  #timed(name, when) {
    if (when === undefined) return;
    this.stage.then((end) => performance.measure(name, { start: when, end }));
  }
}
