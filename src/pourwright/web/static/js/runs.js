import { el } from "./dom.js";
import { listen } from "./events.js";
import { Standing } from "./standing.js";

export const LIVE = new Set(["waiting", "running"]);
const QUIET = 5000;
const UNSEEN = 30000;
export const STATES = {
  waiting: (run) => `Waiting: ${run.words}.`,
  running: (run) => `Now: ${run.words}.`,
  done: (run) => `Done: ${run.words}.`,
  cancelled: (run) => `Cancelled: ${run.words}. What was there before is untouched.`,
  failed: (run) => `This did not work: ${run.words}.`,
  interrupted: (run) => `Interrupted: ${run.words}.`,
};

/** How far a run is, in words. @param {any} run */
export function stageOf(run) {
  if (run.state === "waiting" || !run.total || !run.stage) return run.stage;
  const whole = run.total > 1 && Number.isInteger(run.total);
  const far = whole ? `${Math.floor(run.done)} of ${run.total}` : `${Math.round((100 * run.done) / run.total)} %`;
  return `${run.stage}: ${far}`;
}

/** The bar at the top of a job: what takes a while is begun, followed and cancelled here. */
class Runs {
  constructor(root, desk) {
    this.desk = desk;
    this.root = root;
    this.run = null;
    this.server = "";
    this.file = "";
    this.said = 0;
    this.standing = new Standing(desk);
    this.lost = el("p", { class: "runs-lost warn", role: "status", hidden: true });
    this.now = el("div", { class: "runs-now", hidden: true });
    this.refused = el("p", { class: "stop", role: "alert", hidden: true });
    this.bar = this.makeBar();
    root.replaceChildren(
      el("h2", { class: "visually-hidden", id: "h-runs", text: "Work that takes a while" }),
      this.lost, this.bar, this.refused, this.now, this.standing.list,
    );
  }

  makeBar() {
    this.how = el(
      "select",
      { id: "runs-how" },
      el("option", { value: "sure", text: "with chances, minutes" }),
      el("option", { value: "quick", text: "quick, likeliest numbers only" }),
    );
    this.buttons = [
      this.button("Work out the mold", () => this.begin("mold", {})),
      this.button("Work out the fill", () => this.begin("fill", {})),
      this.button("Plan the pours", () => this.begin("plan", this.planOptions()), "first"),
    ];
    const [mold, fill, plan] = this.buttons;
    return el("div", { class: "runs-bar" }, mold, fill, plan, el("label", { for: "runs-how" }, "How the plan is made", this.how), this.makeMore());
  }

  makeMore() {
    this.fine = el("input", { type: "checkbox", id: "runs-fine" });
    this.whatIf = el("textarea", { id: "runs-what-if", placeholder: 'shop.night_temperature = "16 degC"' });
    return el(
      "details",
      { class: "runs-more" },
      el("summary", { text: "More for the plan" }),
      el(
        "div",
        { class: "fields" },
        el("label", { class: "tick", for: "runs-fine" }, this.fine, "last heat run on a finer grid, 4 mm: slower, smaller error"),
        el("label", { for: "runs-what-if" }, "What if: also look at the job with a line changed, one line each", this.whatIf),
      ),
    );
  }

  button(text, onclick, kind = "") {
    return el("button", { type: "button", class: `button ${kind}`.trim(), text, onclick });
  }

  planOptions() {
    const lines = this.whatIf.value.split("\n").map((line) => line.trim()).filter(Boolean);
    return { quick: this.how.value === "quick", fine: this.fine.checked, what_if: lines };
  }

  async begin(what, options) {
    await this.asked(() => this.desk.send("runs", { what, options }));
    this.now.querySelector("button")?.focus();
  }

  async cancel(button) {
    if (button.getAttribute("aria-disabled")) return;
    // not disabled for good: who pressed it stays where they are
    button.setAttribute("aria-disabled", "true");
    button.textContent = "Cancelling";
    await this.asked(() => this.desk.send(`runs/${this.run.id}/cancel`, {}));
  }

  async asked(ask) {
    this.refused.hidden = true;
    try {
      this.show(await ask());
    } catch (refusal) {
      this.refused.textContent = refusal.words ?? refusal.message;
      this.refused.hidden = false;
    }
  }

  /** Show the latest run. @param {any} run */
  show(run) {
    const before = this.run;
    this.run = run;
    for (const button of this.buttons) button.disabled = Boolean(run) && run.heavy && LIVE.has(run.state);
    this.now.hidden = !run;
    if (!run) return;
    const same = before && before.id === run.id && before.state === run.state;
    if (same) this.update(run);
    else this.draw(run);
    this.say(run, !same && Boolean(before));
    if (!same && before && !LIVE.has(run.state)) this.ended(run);
    this.desk.tell("run", run);
  }

  draw(run) {
    const focused = this.now.contains(document.activeElement);
    this.now.className = `runs-now ${run.state}`;
    this.stage = el("p", { class: "stage", id: "runs-stage" });
    this.meter = LIVE.has(run.state) ? el("progress", { "aria-labelledby": "runs-state", "aria-describedby": "runs-stage" }) : null;
    this.now.replaceChildren(
      el("p", { class: "state", id: "runs-state", text: STATES[run.state](run) }),
      this.stage, ...this.details(run), el("div", { class: "row" }, this.meter, this.way(run)),
    );
    this.update(run);
    if (focused) (this.now.querySelector("button") ?? this.buttons[2]).focus();
  }

  update(run) {
    this.stage.textContent = LIVE.has(run.state) ? stageOf(run) : "";
    this.stage.hidden = !this.stage.textContent;
    if (!this.meter) return;
    // without a value the bar only says that something goes on
    if (run.total > 0 && run.state === "running") Object.assign(this.meter, { max: run.total, value: run.done });
    else this.meter.removeAttribute("value");
  }

  details(run) {
    const rows = [];
    if (run.error) {
      rows.push(el("p", { class: "stop", text: run.error.where ? `${run.error.what} (${run.error.where})` : run.error.what }));
      if (run.error.allowed) rows.push(el("p", { text: `What would do: ${run.error.allowed}` }));
      if (run.error.todo) rows.push(el("p", { text: `Next: ${run.error.todo}` }));
      if (run.reasons.length > 1) rows.push(el("ul", {}, ...run.reasons.map((text) => el("li", { text }))));
    }
    if (run.old && run.state === "done") {
      rows.push(el("p", { class: "old-word", text: "The job was changed while this went on: the answer is of the older choices." }));
    }
    return rows;
  }

  way(run) {
    if (LIVE.has(run.state)) return this.button("Cancel", (event) => this.cancel(event.target));
    if (run.state === "done") return null;
    return this.button("Begin again", () => this.begin(run.what, run.options));
  }

  /** Tell a listener of a new state at once, of progress now and then. */
  say(run, changed) {
    const now = Date.now();
    if (!changed && (!LIVE.has(run.state) || now < this.said + QUIET)) return;
    this.said = now;
    this.desk.say([STATES[run.state](run), LIVE.has(run.state) ? stageOf(run) : run.error?.todo].filter(Boolean).join(" "));
  }

  ended(run) {
    this.standing.ask();
    if (run.state === "done" && run.what !== "plan") this.desk.tell(run.what, run);
  }

  hello(told) {
    const again = this.server && this.server !== told.server;
    this.lost.hidden = !again;
    if (again) this.lost.textContent = "The server was started again. Nothing you chose was lost: the job file is as it was.";
    const other = this.file && this.file !== told.file;
    this.server = told.server;
    this.show(told.run);
    if (other) this.changed(told);
    else this.file = told.file;
    this.standing.ask();
  }

  gone() {
    if (!this.lost.hidden && this.lost.dataset.gone) return;
    this.lost.hidden = false;
    this.lost.dataset.gone = "yes";
    this.lost.textContent = "The server does not answer. It is asked again and again; start it with: pourwright serve";
  }

  async changed(told) {
    if (told.file === this.file) return;
    this.file = told.file;
    this.standing.ask();
    try {
      this.desk.tell("choices", await this.desk.get("choices.json"));
    } catch {
      // whoever shows the choices says what is wrong with the file
    }
  }
}

/** Mount the bar. @param {HTMLElement} root @param {import("./desk.js").Desk} desk */
export function mount(root, desk) {
  const runs = new Runs(root, desk);
  desk.on("choices", (told) => {
    // a change made on this page is no news when the file tells of it
    if (told?.sha256) runs.file = told.sha256;
    runs.standing.ask();
  });
  whileSeen(() => listen(desk.url("events"), {
    hello: (told) => {
      delete runs.lost.dataset.gone;
      runs.hello(told);
    },
    run: (run) => runs.show(run),
    file: (told) => runs.changed(told),
    plan: (told) => {
      runs.standing.ask();
      desk.tell("plan", told);
    },
    lost: () => runs.gone(),
  }));
}

/** Keep something going while the page is looked at: a browser has few lines to one server. @param {() => () => void} begin */
function whileSeen(begin) {
  let end = begin();
  let timer = 0;
  const stop = () => {
    end?.();
    end = null;
  };
  const look = () => {
    clearTimeout(timer);
    if (document.visibilityState === "hidden") timer = setTimeout(stop, UNSEEN);
    else end ??= begin();
  };
  document.addEventListener("visibilitychange", look);
  window.addEventListener("pagehide", stop);
  window.addEventListener("pageshow", look);
}
