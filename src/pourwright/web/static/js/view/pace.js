/** How fine a picture may be drawn so that it keeps up with the hand: coarser while something moves, fine at rest. */

const RATIOS = [2, 1.5, 1, 0.7, 0.5, 0.35];
/** Drawn faster than the first, the next picture may be finer; slower than the second, it must be coarser [ms]. */
const LIMITS = { moving: [25, 50], resting: [60, 200] };
/** Steps of the ratios that are coarse enough for anybody: at rest one wants to read what is drawn. */
const LAST = { moving: RATIOS.length - 1, resting: 3 };

export class Pace {
  /** @param {WebGL2RenderingContext} gl */
  constructor(gl) {
    this.gl = gl;
    this.steps = { moving: 2, resting: 2 };
    /** Whether even the coarsest picture does not keep up: then large bodies are drawn with few triangles. */
    this.rough = false;
  }

  /** Points of the picture for one of the screen, along a side. @param {"moving" | "resting"} state */
  ratio(state) {
    return RATIOS[this.steps[state]];
  }

  /**
   * See when a picture is really there, and learn from it.
   * @param {"moving" | "resting"} state
   * @param {(when: number) => void} act told the time
   */
  watch(state, act) {
    const { gl } = this;
    const begin = performance.now();
    const fence = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
    gl.flush();
    const look = () => {
      if (gl.isContextLost()) return void act(performance.now());
      if (gl.getSyncParameter(fence, gl.SYNC_STATUS) !== gl.SIGNALED) {
        setTimeout(look, 2);
        return;
      }
      gl.deleteSync(fence);
      const now = performance.now();
      this.#learn(state, now - begin);
      act(now);
    };
    setTimeout(look, 0);
  }

  #learn(state, took) {
    const [fast, slow] = LIMITS[state];
    if (state === "moving" && this.steps.moving === LAST.moving && took > slow) this.rough = true;
    const step = this.steps[state] + (took > slow ? 1 : took < fast ? -1 : 0);
    this.steps[state] = Math.max(0, Math.min(LAST[state], step));
  }
}
