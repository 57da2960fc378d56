/** Temperature and cure on the cut, moment by moment; all moments of a cut are held here. */

import { fromHalf, packedFrom } from "./bytes.js";
import { toneOf } from "./shader.js";

const AXES = ["x", "y", "z"];
const LOOKUP = 256;

export class Heat {
  /** @param {typeof import("../../built/three.js")} three @param {import("../desk.js").Desk} desk @param {any} told heat.json */
  constructor(three, desk, told) {
    Object.assign(this, { three, desk, told });
    this.quantity = "temperature";
    this.moment = 0;
    this.film = null;
    this.scales = { temperature: this.#warmth(), cured: this.#hardness() };
  }

  /** Whether a cut goes through the casting. @param {{axis: string, at: number}} cut */
  meets(cut) {
    const edges = this.told.edges_m[cut.axis];
    return cut.at >= edges[0] && cut.at <= edges.at(-1);
  }

  /** Get every moment of one cut. @param {{axis: string, at: number}} cut */
  async load(cut) {
    this.asking?.abort();
    this.asking = new AbortController();
    const { about, arrays } = await packedFrom(this.desk, `heat/plane.bin?axis=${cut.axis}&at=${cut.at}`, this.asking.signal);
    this.film = this.#filmOf(cut, about, arrays);
    this.#update();
  }

  /** @param {number} moment @param {"temperature" | "cured"} quantity */
  choose(moment, quantity) {
    const other = quantity !== this.quantity;
    Object.assign(this, { moment, quantity });
    if (other) this.#ramp();
    if (this.film) this.#update();
  }

  /** Uniforms of the bodies of the casting. */
  uniforms() {
    const { film, told, moment } = this;
    const scale = this.scales[this.quantity];
    return {
      uFilm: film.texture, uCells: film.cells, uRamp: this.#ramp(), uAcross: AXES.indexOf(film.cut.axis),
      uFilmLow: film.low, uFilmHigh: film.high, uFilmSize: film.size, uLimit: scale.limit, uMinded: scale.minded,
      uLevel: told.levels_m[told.pours_in[moment] - 1] + 1e-6,
    };
  }

  #filmOf(cut, about, { temperature, cured }) {
    this.film?.texture.dispose();
    this.film?.cells.dispose();
    const { three } = this;
    const [, rows, columns] = temperature.shape;
    const [first, second] = AXES.filter((axis) => axis !== cut.axis).map((axis) => this.told.edges_m[axis]);
    const texture = new three.DataTexture(new Uint8Array(rows * columns), rows, columns, three.RedFormat, three.UnsignedByteType);
    Object.assign(texture, { magFilter: three.LinearFilter, minFilter: three.LinearFilter, unpackAlignment: 1 });
    return {
      cut, texture, temperature: temperature.data, cured: cured.data, steps: about.cure_steps, rows, columns,
      cells: this.#cells(first, second), size: new three.Vector2(rows, columns),
      low: new three.Vector2(first[0], second[0]), high: new three.Vector2(first.at(-1), second.at(-1)),
    };
  }

  /** From a share of the box's side to cells and parts of cells, counted from the middle of the first. */
  #cells(first, second) {
    const { three } = this;
    const data = new Float32Array(2 * LOOKUP);
    [first, second].forEach((edges, row) => {
      const middles = edges.slice(1).map((edge, i) => (edge + edges[i]) / 2);
      for (let i = 0; i < LOOKUP; i += 1) {
        const at = edges[0] + ((edges.at(-1) - edges[0]) * i) / (LOOKUP - 1);
        data[row * LOOKUP + i] = between(middles, at);
      }
    });
    const texture = new three.DataTexture(data, LOOKUP, 2, three.RedFormat, three.FloatType);
    texture.needsUpdate = true;
    return texture;
  }

  /** The present moment onto the texture, whose first side runs along the first of the two axes. */
  #update() {
    const { film, moment } = this;
    const { rows, columns } = film;
    const table = this.scales[this.quantity].table;
    const values = this.quantity === "temperature" ? film.temperature : film.cured;
    const begin = moment * rows * columns;
    const { data } = film.texture.image;
    for (let i = 0; i < rows; i += 1) {
      for (let j = 0; j < columns; j += 1) data[j * rows + i] = table[values[begin + i * columns + j]];
    }
    film.texture.needsUpdate = true;
  }

  #ramp() {
    const scale = this.scales[this.quantity];
    scale.ramp ??= this.#rampOf(scale.colours);
    return scale.ramp;
  }

  #rampOf(colours) {
    const { three } = this;
    const data = new Uint8Array(colours.flatMap((colour) => [...toneOf(colour).map((part) => 255 * part), 255]));
    const texture = new three.DataTexture(data, colours.length, 1, three.RGBAFormat, three.UnsignedByteType);
    texture.needsUpdate = true;
    return texture;
  }

  #warmth() {
    const { low_degC: low, high_degC: high, limit_degC: limit, colours } = this.told.temperature;
    const share = (value) => (value - low) / (high - low);
    const table = Uint8Array.from({ length: 65536 }, (_, bits) => byteOf(share(fromHalf(bits))));
    return { table, colours, limit: share(limit), minded: 1 };
  }

  #hardness() {
    const { colours, limit_cured: limit } = this.told.cured;
    const table = Uint8Array.from({ length: 256 }, (_, step) => byteOf(step / 250));
    return { table, colours, limit, minded: -1 };
  }
}

const byteOf = (share) => Math.round(255 * Math.max(0, Math.min(1, share || 0)));

/** Where a value lies between rising ones: whole numbers at them, parts in between. */
function between(rising, value) {
  if (value <= rising[0]) return 0;
  const right = rising.findIndex((each) => each >= value);
  if (right < 0) return rising.length - 1;
  return right - 1 + (value - rising[right - 1]) / (rising[right] - rising[right - 1]);
}
