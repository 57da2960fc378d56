/** Turn, near and move what is looked at, by mouse, by fingers and by keys. */

const STEP = Math.PI / 18;
const TOP = Math.PI / 2 - 1e-3;

/** Ways of looking: how far to the right of the front, and how far above it. */
export const SIDES = {
  front: [0, 0],
  side: [Math.PI / 2, 0],
  top: [0, TOP],
  askew: [Math.PI / 5, Math.PI / 7],
};

export class Orbit {
  /** @param {HTMLElement} place @param {() => void} changed */
  constructor(place, changed) {
    this.place = place;
    this.changed = changed;
    [this.around, this.above] = SIDES.askew;
    this.zoom = 1;
    this.shift = [0, 0];
    this.fingers = new Map();
    this.moved = 0;
    place.addEventListener("pointerdown", (event) => this.#down(event));
    place.addEventListener("pointermove", (event) => this.#move(event));
    for (const end of ["pointerup", "pointercancel"]) place.addEventListener(end, (event) => this.fingers.delete(event.pointerId));
    place.addEventListener("wheel", (event) => this.#wheel(event), { passive: false });
  }

  /** From what is looked at to the eye. */
  get toEye() {
    const flat = Math.cos(this.above);
    return [flat * Math.sin(this.around), -flat * Math.cos(this.around), Math.sin(this.above)];
  }

  /** @param {keyof typeof SIDES} side */
  look(side) {
    [this.around, this.above] = SIDES[side];
    this.whole();
  }

  /** Show all of it again. */
  whole() {
    this.zoom = 1;
    this.shift = [0, 0];
    this.changed();
  }

  /** @param {KeyboardEvent} event @returns {boolean} whether the key meant something */
  key(event) {
    const act = {
      ArrowLeft: () => this.turn(-STEP, 0),
      ArrowRight: () => this.turn(STEP, 0),
      ArrowUp: () => this.turn(0, STEP),
      ArrowDown: () => this.turn(0, -STEP),
      "+": () => this.nearer(1.2),
      "=": () => this.nearer(1.2),
      "-": () => this.nearer(1 / 1.2),
      0: () => this.whole(),
    }[event.key];
    if (!act || event.ctrlKey || event.metaKey || event.altKey) return false;
    act();
    return true;
  }

  turn(right, up) {
    this.around += right;
    this.above = Math.max(-TOP, Math.min(TOP, this.above + up));
    this.changed();
  }

  nearer(times) {
    this.zoom = Math.max(0.5, Math.min(40, this.zoom * times));
    this.changed();
  }

  #down(event) {
    if (event.target !== this.place) return;
    this.place.setPointerCapture(event.pointerId);
    this.fingers.set(event.pointerId, [event.clientX, event.clientY]);
    if (this.fingers.size === 1) this.moved = 0;
  }

  #move(event) {
    const before = this.fingers.get(event.pointerId);
    if (!before) return;
    const now = [event.clientX, event.clientY];
    const by = [now[0] - before[0], now[1] - before[1]];
    this.moved += Math.hypot(...by);
    if (this.fingers.size > 1) this.#pinch(event.pointerId, before, now);
    else if (event.shiftKey || event.buttons > 1) this.#slide(by);
    else this.turn(-by[0] * 0.008, by[1] * 0.008);
    this.fingers.set(event.pointerId, now);
  }

  #pinch(id, before, now) {
    const [, other] = [...this.fingers].find(([key]) => key !== id);
    const apart = (at) => Math.hypot(at[0] - other[0], at[1] - other[1]) || 1;
    this.#slide([(now[0] - before[0]) / 2, (now[1] - before[1]) / 2]);
    this.nearer(apart(now) / apart(before));
  }

  #slide(by) {
    const size = this.place.clientHeight * this.zoom;
    this.shift = [this.shift[0] - by[0] / size, this.shift[1] + by[1] / size];
    this.changed();
  }

  // a wheel that scrolls the page is not taken away from it: only with the picture in use
  #wheel(event) {
    if (document.activeElement !== this.place && !event.ctrlKey) return;
    event.preventDefault();
    this.nearer(Math.exp(-event.deltaY * 0.0015));
  }
}
