/** The view: piece and mold in space, cut open, tinted, with the heat inside; and all of it in words. */

import { el } from "./dom.js";
import { View } from "./view/job.js";
import { twin } from "./view/words.js";

const DRAWINGS = [
  ["mold-cast", "The mold as it is cast, cut through the middle"],
  ["mold-poured", "The mold while its rubber is poured, cut through the middle"],
  ["parts", "All parts, pulled apart"],
];

/**
 * @param {HTMLElement} root
 * @param {import("./desk.js").Desk} desk
 */
export function mount(root, desk) {
  const words = twin(desk);
  const status = el("p", { class: "quiet", role: "status", text: "The view comes as you get to it." });
  const room = el("div", { class: "view-room" });
  root.replaceChildren(status, room, words.node);
  let view = null;
  const refresh = patient(() => {
    words.fresh();
    return view && shown();
  }, 300);
  for (const event of ["choices", "plan"]) desk.on(event, refresh);
  // the rest of the page does not wait for it
  near(room).then(begin);

  async function begin() {
    if (!drawable()) return instead(room, status, desk);
    view = new View(await import("../built/three.js"), room, status, desk);
    root.view = view;
    return shown();
  }

  async function shown() {
    status.className = "quiet";
    try {
      await view.refresh();
    } catch (error) {
      status.className = "stop";
      status.textContent = error.words ?? error.message;
    }
  }
}

/** Whether this browser draws in space at all. */
function drawable() {
  try {
    return Boolean(document.createElement("canvas").getContext("webgl2"));
  } catch {
    return false;
  }
}

/** The same in drawings. */
function instead(room, status, desk) {
  status.textContent = "This browser shows no pictures in space (WebGL is missing or switched off). These drawings show the same, and the words below tell it.";
  const figures = DRAWINGS.map(([name, words]) =>
    el("figure", {}, el("img", { src: desk.url(`view/drawings/${name}.svg`), alt: words, loading: "lazy" }), el("figcaption", { class: "quiet", text: words })),
  );
  room.replaceChildren(el("div", { class: "view-drawings" }, ...figures));
}

/** Wait until a place is nearly in sight. */
function near(place) {
  return new Promise((seen) => {
    const watch = new IntersectionObserver(
      (entries) => {
        if (!entries.some((entry) => entry.isIntersecting)) return;
        watch.disconnect();
        seen();
      },
      { rootMargin: "500px" },
    );
    watch.observe(place);
  });
}

/** Act once it has been quiet for a while. */
function patient(act, quiet) {
  let timer = 0;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(act, quiet);
  };
}
