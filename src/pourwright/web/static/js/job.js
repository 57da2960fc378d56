import { Desk } from "./desk.js";

/** Parts that may stand on the page; each is loaded where its place is. */
const KNOWN = new Set(["answers", "charts", "choices", "paper", "runs", "tape", "view"]);

async function mounted(place, desk) {
  const name = place.dataset.mount;
  if (!KNOWN.has(name)) return;
  try {
    const part = await import(`./${name}.js`);
    await part.mount(place, desk);
  } catch (error) {
    console.error(name, error);
    place.textContent = `This part of the page could not be loaded (${name}): ${error.message}. Load the page again.`;
  }
}

/** Mark the step that is worked on: the last whose head has come up into the upper third. */
function followSteps() {
  const links = [...document.querySelectorAll(".steps a")];
  const steps = links.map((link) => document.getElementById(link.hash.slice(1)));
  const mark = () => {
    const begun = steps.findLastIndex((step) => step.getBoundingClientRect().top < window.innerHeight / 3);
    links.forEach((link, i) => (i === Math.max(0, begun) ? link.setAttribute("aria-current", "location") : link.removeAttribute("aria-current")));
  };
  const seen = new IntersectionObserver(mark, { rootMargin: "0px 0px -66% 0px" });
  for (const step of steps) seen.observe(step);
}

const root = document.getElementById("desk");
const desk = new Desk(root);
window.desk = desk;
followSteps();
await Promise.all([...root.querySelectorAll("[data-mount]")].map((place) => mounted(place, desk)));
root.dataset.ready = "yes";
