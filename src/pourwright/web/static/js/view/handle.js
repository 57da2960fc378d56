/** The handle by which the cut is dragged through the picture. */

import { el } from "../dom.js";

export class Handle {
  /** @param {import("./scene.js").Stage} stage @param {(at: number) => void} moved */
  constructor(stage, moved) {
    this.stage = stage;
    this.moved = moved;
    this.node = el("div", { class: "view-handle", "aria-hidden": "true" });
    this.node.hidden = true;
    this.node.addEventListener("pointerdown", (event) => this.#down(event));
    this.node.addEventListener("pointermove", (event) => this.#move(event));
  }

  /** Put it where the cut is now. */
  place() {
    const { stage } = this;
    this.node.hidden = !stage.cut || stage.apart >= 0.02;
    if (this.node.hidden) return;
    const [x, y] = stage.onCanvas(stage.frameCorners()[2]);
    const inside = (value, most) => Math.max(16, Math.min(most - 16, value));
    const { clientWidth, clientHeight } = stage.canvas;
    this.node.style.transform = `translate(${inside(x, clientWidth)}px, ${inside(y, clientHeight)}px)`;
  }

  #down(event) {
    this.node.setPointerCapture(event.pointerId);
    this.from = { x: event.clientX, y: event.clientY, at: this.stage.cut.at, way: this.#way() };
    event.preventDefault();
  }

  /** How far the cut moves on the screen for a metre, to the right and down. */
  #way() {
    const k = "xyz".indexOf(this.stage.cut.axis);
    const one = [0, 0, 0], other = [0, 0, 0];
    other[k] = 0.1;
    const [a, b] = [this.stage.onCanvas(one), this.stage.onCanvas(other)];
    const way = [10 * (b[0] - a[0]), 10 * (b[1] - a[1])];
    // looked at along the cut's own way: up and down stands for it
    return Math.hypot(...way) > 60 ? way : [0, -600];
  }

  #move(event) {
    if (!this.node.hasPointerCapture(event.pointerId)) return;
    const { x, y, at, way } = this.from;
    const along = (event.clientX - x) * way[0] + (event.clientY - y) * way[1];
    this.moved(at + along / (way[0] ** 2 + way[1] ** 2), event.timeStamp);
  }
}
