/** The fields beside the picture. */

import { el } from "../dom.js";
import { SIDES } from "./orbit.js";
import { Parts, buttons, chooser, slider } from "./panel.js";

const CUTS = [["y", "upright, seen from the front"], ["x", "upright, seen from the side"], ["z", "level, seen from above"], ["", "not cut"]];
const LOOKS = { front: "Front", side: "Side", top: "Top", askew: "Askew" };

export class Controls {
  /** @param {import("./job.js").View} view */
  constructor(view) {
    this.view = view;
    this.looks = this.#looks();
    this.parts = new Parts((ids) => view.show(ids));
    this.colour = chooser("Colour the piece by", [["material", "what it is"]], (value) => view.colourBy(value));
    this.axis = chooser("Cut", CUTS, (axis) => this.#cutAlong(axis));
    this.place = slider("Where it is cut", { min: 0, max: 120, step: 1 }, (event) => this.#cutTo(Number(event.target.value), event.timeStamp));
    this.apart = slider("Pulled apart", { min: 0, max: 100, step: 1, value: 0 }, (event) => this.#pull(event));
    this.apart.say("together");
    this.heat = this.#heat();
    this.node = el("div", { class: "view-panel" }, this.parts.node, this.colour.node, this.axis.node, this.place.node, this.apart.node, this.heat);
  }

  #looks() {
    const { orbit } = this.view;
    const rows = Object.keys(SIDES).map((side) => [LOOKS[side], () => orbit.look(side)]);
    const keys = [["Turn left", -1, 0], ["Turn right", 1, 0]].map(([text, right, up]) => [text, () => orbit.turn((right * Math.PI) / 18, up)]);
    return buttons("Look from", [...rows, ["Nearer", () => orbit.nearer(1.25)], ["Farther", () => orbit.nearer(0.8)], ...keys]);
  }

  #heat() {
    this.quantity = chooser("Show on the cut", [["", "what it is"]], (value) => this.#paintBy(value));
    this.time = slider("When", { min: 0, max: 0, step: 1, value: 0 }, (event) => this.#timeTo(Number(event.target.value), event.timeStamp));
    this.play = el("button", { type: "button", text: "Play", onclick: () => this.#toggle() });
    const hottest = el("button", { type: "button", text: "Hottest moment", onclick: () => this.#hottest() });
    this.hottest = el("p", {});
    this.says = el("p", { class: "quiet", role: "status" });
    this.timed = el("div", {}, this.time.node, el("div", { class: "view-buttons" }, this.play, hottest), this.hottest, this.says);
    this.timed.hidden = true;
    return el("div", { class: "view-heat" }, this.quantity.node, this.timed);
  }

  /** Take what a job has. @param {any} told view.json */
  fill(told) {
    this.told = told;
    const kinds = new Set(told.kinds.map((kind) => kind.kind));
    const rest = [["band", "bands"], ["pour", "pours"]].filter(([kind]) => kinds.has(kind));
    const tints = [["undercut", "undercut"], ["draft", "lean (draft)"], ["thickness", "thickness"]];
    options(this.colour.input, [["material", "what it is"], ...rest, ...tints]);
    this.view.colour = this.colour.input.value;
    this.#cutAlong(this.axis.input.value);
    this.parts.inside = "piece";
    this.parts.variety = ["material", "band", "pour"].includes(this.view.colour) ? this.view.colour.replace("material", "piece") : "surface";
    this.parts.fill(told);
  }

  /** @param {any} heat heat.json, or nothing */
  fillHeat(heat) {
    this.heated = heat;
    const more = heat ? [["temperature", "temperature"], ["cured", "% cured"]] : [];
    options(this.quantity.input, [["", "what it is"], ...more]);
    this.view.quantity = this.quantity.input.value;
    this.timed.hidden = !this.view.quantity;
    if (!heat) return;
    this.time.input.max = String(heat.hours.length - 1);
    this.hottest.textContent = heat.hottest.text;
    this.hottest.className = heat.old ? "old" : "";
    if (heat.old) this.hottest.prepend(el("span", { class: "old-word", text: "Of the plan before the last change. " }));
    this.#sayTime();
  }

  /** For a tint of its surface the piece stands alone and whole. @param {boolean} bare */
  bare(bare) {
    this.parts.alone(bare);
    this.axis.input.value = bare ? "" : "y";
    this.#cutAlong(this.axis.input.value);
  }

  /** Number of the moment that is shown. */
  get moment() {
    return Number(this.time.input.value);
  }

  /** @param {string} words */
  heatSays(words) {
    if (this.says.textContent !== words) this.says.textContent = words;
  }

  /** Cut at a place that was dragged to [m]. @param {number} at @param {number} when */
  cutAt(at, when) {
    const { at_m: stops, text } = this.told.cuts[this.axis.input.value];
    const place = Math.max(stops[0], Math.min(stops.at(-1), at));
    const nearest = Math.round(((place - stops[0]) / (stops.at(-1) - stops[0])) * (stops.length - 1));
    this.place.input.value = String(nearest);
    this.place.say(text[nearest]);
    this.view.slice({ axis: this.axis.input.value, at: place }, when);
  }

  #cutAlong(axis) {
    this.place.node.hidden = !axis;
    if (!axis) {
      this.view.slice(null);
      return;
    }
    const { at_m: stops, first } = this.told.cuts[axis];
    this.place.input.max = String(stops.length - 1);
    this.place.input.value = String(first);
    this.#cutTo(first);
  }

  #cutTo(stop, when = undefined) {
    const axis = this.axis.input.value;
    const { at_m: stops, text } = this.told.cuts[axis];
    this.place.say(text[stop]);
    this.view.slice({ axis, at: stops[stop] }, when);
  }

  #pull(event) {
    const share = Number(event.target.value) / 100;
    this.apart.say(share ? `${event.target.value} %` : "together");
    this.view.pull(share, event.timeStamp);
  }

  #paintBy(quantity) {
    this.timed.hidden = !quantity;
    if (quantity && !this.axis.input.value) {
      this.axis.input.value = "y";
      this.#cutAlong("y");
    }
    this.view.paintBy(quantity);
  }

  #timeTo(moment, when = undefined) {
    this.time.input.value = String(moment);
    this.#sayTime();
    this.view.moment(moment, when);
  }

  #sayTime() {
    this.time.say(this.heated.moments[this.moment]);
  }

  /** To the hottest moment, and the cut through the hottest place. */
  #hottest() {
    const { time_h: time, place_m: place } = this.heated.hottest;
    const { hours } = this.heated;
    const nearest = hours.reduce((best, hour, i) => (Math.abs(hour - time) <= Math.abs(hours[best] - time) ? i : best), 0);
    this.#timeTo(nearest);
    this.cutAt(place["xyz".indexOf(this.axis.input.value)]);
  }

  #toggle() {
    if (this.playing) return this.#pause();
    if (this.moment >= Number(this.time.input.max)) this.#timeTo(0);
    const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
    this.play.textContent = "Pause";
    this.playing = setInterval(() => {
      if (this.moment >= Number(this.time.input.max)) this.#pause();
      else this.#timeTo(this.moment + 1);
    }, calm ? 1000 : 120);
  }

  #pause() {
    clearInterval(this.playing);
    this.playing = 0;
    this.play.textContent = "Play";
  }
}

/** Other options, the same one chosen where it is still there. */
function options(input, rows) {
  const before = input.value;
  input.replaceChildren(...rows.map(([value, text]) => el("option", { value, text })));
  input.value = rows.some(([value]) => value === before) ? before : rows[0][0];
}
