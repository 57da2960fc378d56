import { el } from "../dom.js";
import { listen } from "../events.js";
import { LIVE, stageOf, STATES } from "../runs.js";

const WHAT = "cut";

/** Begin, follow and cancel the work; when it is done the page is loaded with what it gave. @param {HTMLElement} root @param {import("../desk.js").Desk} desk */
export function followRun(root, desk) {
  const begin = root.querySelector("#run-begin");
  const now = root.querySelector("#run-now");
  const refused = root.querySelector("#run-refused");
  let last = null;

  const asked = async (path, body) => {
    refused.textContent = "";
    try {
      show(await desk.send(path, body));
    } catch (refusal) {
      refused.textContent = refusal.words ?? refusal.message;
    }
  };

  const show = (run) => {
    const live = Boolean(run) && LIVE.has(run.state);
    begin.disabled = live && run.heavy;
    const ours = run && (run.what === WHAT || live);
    if (ended(run, last)) return location.reload();
    last = run;
    now.hidden = !ours || run.state === "done";
    if (!now.hidden) draw(run, live);
    return undefined;
  };

  const draw = (run, live) => {
    const words = [STATES[run.state](run), live ? stageOf(run) : "", run.error?.what, run.error?.todo && `Next: ${run.error.todo}`].filter(Boolean);
    if (now.dataset.said !== words[0]) desk.say(words.join(" "));
    now.dataset.said = words[0];
    now.className = `runs-now ${run.state}`;
    if (now.dataset.run !== `${run.id} ${run.state}`) {
      now.dataset.run = `${run.id} ${run.state}`;
      const cancel = el("button", { type: "button", text: "Cancel", onclick: (event) => { event.target.disabled = true; asked(`runs/${run.id}/cancel`, {}); } });
      now.replaceChildren(
        el("p", { class: "state", id: "run-state" }), el("div", { class: "said" }),
        live ? el("div", { class: "row" }, el("progress", { "aria-labelledby": "run-state" }), cancel) : "",
      );
    }
    now.querySelector(".state").textContent = words[0];
    now.querySelector(".said").replaceChildren(...words.slice(1).map((text) => el("p", { text })));
    const meter = now.querySelector("progress");
    if (meter && run.total > 0 && run.state === "running") Object.assign(meter, { max: run.total, value: run.done });
  };

  begin.addEventListener("click", () => asked("runs", { what: WHAT, options: {} }));
  listen(desk.url("events"), {
    hello: (told) => show(told.run),
    run: show,
    file: () => {},
    plan: () => {},
    lost: () => {},
  });
}

/** Whether the list was made while this page was looked at. */
function ended(run, last) {
  return run?.what === WHAT && run.state === "done" && last?.id === run.id && last.state !== "done";
}
