/** The picture: bodies, the cut through them, and what it is looked at from. */

import { Pace } from "./pace.js";
import { soupOf } from "./shape.js";
import { FRAGMENT, PATTERNS, VERTEX, toneOf } from "./shader.js";
import { metBy } from "./pick.js";

const AXES = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };
/** Pattern on the cut of each kind of part. */
const CUT = { rubber: "dots", block: "rising lines", panel: "falling lines", master: "ticks", bar: "rising lines", core: "crosses" };
const NEARER = 4000; // steps of the depth, of which there are 2 ** 24
const FEW = 6000; // triangles up to which edges are drawn

export class Stage {
  /** @param {typeof import("../../built/three.js")} three @param {HTMLCanvasElement} canvas */
  constructor(three, canvas) {
    this.three = three;
    this.canvas = canvas;
    this.renderer = new three.WebGLRenderer({ canvas, antialias: false, alpha: true, stencil: true });
    this.pace = new Pace(this.renderer.getContext());
    this.scene = new three.Scene();
    this.camera = new three.OrthographicCamera(-1, 1, 1, -1, 0.01, 10);
    this.camera.up.set(0, 0, 1);
    this.bodies = new Map();
    this.apart = 0;
    this.cut = null;
    this.colours = { ink: [0.1, 0.1, 0.1], empty: [0.9, 0.9, 0.9] };
    this.after = [];
    this.#frame();
  }

  /** @param {any} part of view.json @param {Float32Array} positions @param {Uint32Array} corners @param {Float32Array} [values] */
  add(part, positions, corners, values = undefined) {
    this.remove(part.id);
    const geometry = this.#geometry(positions, corners, values);
    const mesh = new this.three.Mesh(geometry, this.#material(part, Boolean(values)));
    // backs leave a mark, so that no edge behind a cut is drawn onto it
    const backs = new this.three.Mesh(geometry, this.#backsOf(part, mesh.material));
    mesh.frustumCulled = backs.frustumCulled = false;
    mesh.add(backs);
    const lines = corners.length / 3 <= FEW ? this.#edges(geometry) : null;
    if (lines) mesh.add(lines);
    this.scene.add(mesh);
    this.bodies.set(part.id, { part, mesh, backs, lines, fine: geometry, soup: geometry.attributes.position.array });
    mesh.visible = false;
  }

  /** The same body with few triangles. @param {string} id @param {Float32Array} positions @param {Uint32Array} corners */
  addCoarse(id, positions, corners) {
    const body = this.bodies.get(id);
    if (body) body.coarse = this.#geometry(positions, corners);
  }

  #geometry(positions, corners, values = undefined) {
    const soup = soupOf(positions, corners);
    const geometry = new this.three.BufferGeometry();
    geometry.setAttribute("position", new this.three.BufferAttribute(soup.positions, 3));
    geometry.setAttribute("normal", new this.three.BufferAttribute(soup.normals, 3));
    geometry.setAttribute("value", new this.three.BufferAttribute(spread(values, corners.length), 1));
    return geometry;
  }

  /** @param {string} id */
  remove(id) {
    const body = this.bodies.get(id);
    if (!body) return;
    this.scene.remove(body.mesh);
    for (const each of [body.mesh, body.backs, body.lines]) each?.material.dispose();
    for (const each of [body.fine, body.coarse, body.lines?.geometry]) each?.dispose();
    this.bodies.delete(id);
  }

  /** @param {Set<string>} ids */
  show(ids) {
    for (const [id, body] of this.bodies) body.mesh.visible = ids.has(id);
    this.draw();
  }

  /** @param {number} share from 0, in its place, to 1 */
  pull(share) {
    this.apart = share;
    this.draw();
  }

  /** @param {{axis: "x"|"y"|"z", at: number} | null} cut */
  slice(cut) {
    this.cut = cut;
    this.draw();
  }

  /** Paint heat on the cut of some bodies. @param {(body: any) => Record<string, any> | null} values uniforms, or none */
  paint(values) {
    for (const body of this.bodies.values()) {
      const given = values(body);
      const { material } = body.backs;
      for (const [name, value] of Object.entries(given ?? {})) material.uniforms[name].value = value;
      if (material.defines.HOT !== Number(Boolean(given))) {
        material.defines.HOT = Number(Boolean(given));
        material.needsUpdate = true;
      }
    }
    this.draw();
  }

  /** @param {string} id @param {{ends: number[], tones: number[][], marks: number[]}} legend */
  tint(id, legend) {
    const { uniforms } = this.bodies.get(id).mesh.material;
    uniforms.uEnds.value = padded(legend.ends, 8, 1e30);
    uniforms.uTones.value = padded(legend.tones, 8, [1, 1, 1]).map((tone) => new this.three.Vector3(...tone));
    uniforms.uMarks.value = padded(legend.marks, 8, 0);
    uniforms.uClasses.value = legend.tones.length;
  }

  /** Draw before the next picture of the screen. */
  draw() {
    this.moving = true;
    this.#soon();
  }

  #soon() {
    // one picture at a time: they would queue up, and the hand would be ever farther ahead
    this.late = this.underway;
    if (!this.late) this.asked ??= requestAnimationFrame(() => this.#drawNow());
  }

  #there(acts, when) {
    this.underway = false;
    for (const act of acts) act(when);
    if (this.late) this.#soon();
  }

  /** Call once the next drawing is there. @param {(when: number) => void} act */
  then(act) {
    this.after.push(act);
    this.draw();
  }

  /** @param {import("./orbit.js").Orbit} orbit */
  lookFrom(orbit) {
    this.orbit = orbit;
    this.draw();
  }

  /** Where a place stands on the canvas [CSS pixels]. @param {number[]} place */
  onCanvas(place) {
    const at = new this.three.Vector3(...place).project(this.camera);
    return [((at.x + 1) / 2) * this.canvas.clientWidth, ((1 - at.y) / 2) * this.canvas.clientHeight];
  }

  /** What is met at a place of the canvas [CSS pixels]. @param {number} x @param {number} y */
  met(x, y) {
    const shown = [...this.bodies.values()].filter((body) => body.mesh.visible);
    const near = new this.three.Vector3((2 * x) / this.canvas.clientWidth - 1, 1 - (2 * y) / this.canvas.clientHeight, -1);
    near.unproject(this.camera);
    const way = this.away;
    const bodies = shown.map((body) => ({ id: body.part.id, soup: body.soup, moved: body.mesh.position.toArray() }));
    return metBy(bodies, near.toArray(), way, this.plane);
  }

  /** From the eye into the picture. */
  get away() {
    return (this.orbit?.toEye ?? [0, -1, 0]).map((value) => -value);
  }

  /** Normal towards the eye and offset of the cut: the half in front is taken away. */
  get plane() {
    if (!this.cut) return null;
    const normal = AXES[this.cut.axis];
    const toEye = -normal.reduce((sum, value, k) => sum + value * this.away[k], 0);
    const side = toEye >= 0 ? 1 : -1;
    return [...normal.map((value) => side * value), side * this.cut.at];
  }

  /** Corners of all that is shown, as it lies or pulled apart. @param {number} share */
  bounds(share) {
    const low = [Infinity, Infinity, Infinity];
    const high = [-Infinity, -Infinity, -Infinity];
    for (const { part, mesh } of this.bodies.values()) {
      if (!mesh.visible) continue;
      for (let k = 0; k < 3; k += 1) {
        low[k] = Math.min(low[k], part.low_m[k] + share * part.moved_m[k]);
        high[k] = Math.max(high[k], part.high_m[k] + share * part.moved_m[k]);
      }
    }
    return low[0] <= high[0] ? { low, high } : { low: [-0.1, -0.1, -0.1], high: [0.1, 0.1, 0.1] };
  }

  #drawNow() {
    this.asked = null;
    if (!this.orbit) return;
    this.#place();
    this.#set();
    this.renderer.render(this.scene, this.camera);
    const acts = this.after.splice(0);
    this.underway = true;
    this.pace.watch(this.moving ? "moving" : "resting", (when) => this.#there(acts, when));
    this.drawn?.();
    this.#rest();
  }

  /** Once nothing has moved for a while, draw as fine as one likes to look at. */
  #rest() {
    clearTimeout(this.resting);
    if (!this.moving) return;
    this.moving = false;
    this.resting = setTimeout(() => this.#soon(), 200);
  }

  #place() {
    const { clientWidth: width, clientHeight: height } = this.canvas;
    const ratio = this.pace.ratio(this.moving ? "moving" : "resting");
    if (this.size !== `${width} ${height} ${ratio}`) {
      this.size = `${width} ${height} ${ratio}`;
      this.renderer.setPixelRatio(ratio);
      this.renderer.setSize(width, height, false);
    }
    const { low, high } = this.bounds(this.apart);
    this.#aim(low.map((value, k) => (value + high[k]) / 2), high.map((value, k) => (value - low[k]) / 2), width / Math.max(height, 1));
  }

  /** All round it fits the picture, so that it keeps its size while it is turned. */
  #aim(middle, sides, wide) {
    const { camera, orbit } = this;
    const radius = Math.hypot(...sides), round = Math.hypot(sides[0], sides[1]);
    const tall = round * Math.abs(Math.sin(orbit.above)) + sides[2] * Math.cos(orbit.above);
    const whole = 1.08 * Math.max(tall, round / wide);
    const up = whole / orbit.zoom, across = up * wide;
    const [right, high] = orbit.shift.map((value) => 2 * value * whole);
    Object.assign(camera, { left: -across + right, right: across + right, top: up - high, bottom: -up - high });
    Object.assign(camera, { near: radius, far: 7 * radius });
    camera.position.set(...orbit.toEye.map((value, k) => middle[k] + 4 * radius * value));
    camera.lookAt(...middle);
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld();
  }

  #set() {
    const plane = this.plane ?? [0, 0, 1, 0];
    const rough = this.moving && this.pace.rough;
    for (const { part, mesh, backs, lines, fine, coarse } of this.bodies.values()) {
      mesh.geometry = backs.geometry = (rough && coarse) || fine;
      backs.visible = Boolean(this.cut);
      mesh.position.set(...part.moved_m.map((value) => value * this.apart));
      for (const each of lines ? [mesh, lines] : [mesh]) {
        const { uniforms } = each.material;
        uniforms.uPlane.value.set(...plane);
        uniforms.uCut.value = Boolean(this.cut);
        uniforms.uInk.value = this.colours.ink;
        if (uniforms.uAway) uniforms.uAway.value = this.away;
        if (uniforms.uEmpty) uniforms.uEmpty.value = this.colours.empty;
        if (uniforms.uPixels) uniforms.uPixels.value = this.renderer.getPixelRatio();
      }
    }
    this.#setFrame();
  }

  #material(part, tinted) {
    const { three } = this;
    const plain = {
      uTone: toneOf(part.tone), uInk: this.colours.ink, uEmpty: this.colours.empty, uAway: [0, 1, 0], uPlane: new three.Vector4(),
      uCut: false, uClasses: 1, uAcross: 1, uPixels: 1, uLevel: 1e9,
      uLimit: 2, uMinded: 1, uEnds: padded([], 8, 1e30), uTones: padded([], 8, [1, 1, 1]).map((tone) => new three.Vector3(...tone)),
      uMarks: padded([], 8, 0), uFilm: null, uCells: null, uRamp: null,
      uFilmLow: new three.Vector2(), uFilmHigh: new three.Vector2(1, 1), uFilmSize: new three.Vector2(1, 1),
    };
    const defines = { BACK: 0, HOT: 0, TINTED: Number(tinted), MARK: patternOf(part.pattern) };
    return this.#shader(VERTEX, FRAGMENT, plain, { side: three.FrontSide, defines, ...this.#marks(0) });
  }

  /** The same for the backs of the faces, with the very same values. */
  #backsOf(part, material) {
    const { three } = this;
    const defines = { BACK: 1, HOT: 0, TINTED: 0, MARK: patternOf(part.pattern || CUT[part.kind] || "") };
    // a little nearer: the cut of one body wins over the face of the next that lies on it
    const nearer = { polygonOffset: true, polygonOffsetFactor: 0, polygonOffsetUnits: -NEARER };
    const backs = this.#shader(VERTEX, FRAGMENT, {}, { side: three.BackSide, defines, ...this.#marks(1), ...nearer });
    backs.uniforms = material.uniforms;
    return backs;
  }

  #marks(ref) {
    const { AlwaysStencilFunc, ReplaceStencilOp } = this.three;
    return { stencilWrite: true, stencilRef: ref, stencilFunc: AlwaysStencilFunc, stencilZPass: ReplaceStencilOp };
  }

  #shader(vertexShader, fragmentShader, plain, more = {}) {
    const uniforms = Object.fromEntries(Object.entries(plain).map(([name, value]) => [name, { value }]));
    const { GLSL3, RawShaderMaterial } = this.three;
    return new RawShaderMaterial({ glslVersion: GLSL3, vertexShader, fragmentShader, uniforms, ...more });
  }

  #edges(geometry) {
    const edges = new this.three.EdgesGeometry(geometry, 35);
    const plain = { uPlane: new this.three.Vector4(), uCut: false, uInk: this.colours.ink };
    const apart = { stencilWrite: true, stencilWriteMask: 0, stencilRef: 1, stencilFunc: this.three.NotEqualStencilFunc };
    const lines = new this.three.LineSegments(edges, this.#shader(LINE_VERTEX, LINE_FRAGMENT, plain, apart));
    lines.frustumCulled = false;
    lines.renderOrder = 1;
    return lines;
  }

  /** The frame of the cut. */
  #frame() {
    const { three } = this;
    const geometry = new three.BufferGeometry();
    geometry.setAttribute("position", new three.BufferAttribute(new Float32Array(24), 3));
    const plain = { uPlane: new three.Vector4(), uCut: false, uInk: [0.1, 0.3, 0.4] };
    this.frame = new three.LineSegments(geometry, this.#shader(LINE_VERTEX, LINE_FRAGMENT, plain));
    this.frame.frustumCulled = false;
    this.frame.visible = false;
    this.scene.add(this.frame);
  }

  #setFrame() {
    this.frame.visible = Boolean(this.cut) && this.apart < 0.02;
    if (!this.frame.visible) return;
    const corners = this.frameCorners();
    const lines = corners.flatMap((corner, i) => [...corner, ...corners[(i + 1) % 4]]);
    this.frame.geometry.attributes.position.array.set(lines);
    this.frame.geometry.attributes.position.needsUpdate = true;
    this.frame.material.uniforms.uInk.value = this.colours.accent ?? [0.1, 0.3, 0.4];
  }

  /** Corners of the frame around the cut, a little outside of what is shown. */
  frameCorners() {
    const { low, high } = this.bounds(0);
    const k = "xyz".indexOf(this.cut.axis);
    const [i, j] = [0, 1, 2].filter((axis) => axis !== k);
    const pad = 0.03 * Math.max(...high.map((value, axis) => value - low[axis]));
    return [[0, 0], [1, 0], [1, 1], [0, 1]].map(([right, up]) => {
      const corner = [0, 0, 0];
      corner[k] = this.cut.at;
      corner[i] = right ? high[i] + pad : low[i] - pad;
      corner[j] = up ? high[j] + pad : low[j] - pad;
      return corner;
    });
  }
}

const LINE_VERTEX = `
in vec3 position;
uniform mat4 modelViewMatrix, projectionMatrix;
out vec3 vPlace;
void main() {
  vPlace = position;
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
  gl_Position.z -= 0.0015 * gl_Position.w;
}`;
const LINE_FRAGMENT = `
precision highp float;
in vec3 vPlace;
out vec4 outColour;
uniform vec4 uPlane;
uniform bool uCut;
uniform vec3 uInk;
void main() {
  if (uCut && dot(uPlane.xyz, vPlace) > uPlane.w) discard;
  outColour = vec4(uInk, 1.0);
}`;

/** Number of a pattern. @param {string} name */
export const patternOf = (name) => Math.max(PATTERNS.indexOf(name), 0);

function padded(list, length, filler) {
  return Array.from({ length }, (_, i) => list[i] ?? filler);
}

/** One value for each face becomes one for each of its corners; none is told by a huge number. */
function spread(values, corners) {
  const out = new Float32Array(corners);
  if (values) for (let i = 0; i < corners; i += 1) out[i] = Number.isNaN(values[Math.floor(i / 3)]) ? 1e30 : values[Math.floor(i / 3)];
  return out;
}
