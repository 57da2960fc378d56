import { get, send } from "./desk.js";
import { el } from "./dom.js";

const LOOK_AGAIN = 3000;
const place = (id) => document.getElementById(id);
let shown = "";
let paired = new Set();

function say(words) {
  place("phones-said").textContent = words;
}

function hidePicture() {
  place("phones-picture").hidden = true;
  place("phones-picture").removeAttribute("src");
}

async function newCode() {
  try {
    const told = await send("/phones/codes", {});
    const picture = place("phones-picture");
    picture.src = told.picture;
    picture.hidden = false;
    say("The code holds for three minutes, for one phone.");
    setTimeout(() => picture.src === told.picture && (hidePicture(), say("The code has run out.")), Date.parse(told.until) - Date.now());
  } catch (refusal) {
    say(refusal.words);
  }
}

async function takeBack(phone) {
  try {
    await send(`/phones/${phone.id}`, {}, "DELETE");
    say(`${phone.name}: taken back.`);
  } catch (refusal) {
    say(refusal.words);
  }
  await look();
}

function line(phone) {
  const until = new Date(phone.until).toLocaleDateString("en-GB", { day: "numeric", month: "short" });
  const made = new Date(phone.made).toLocaleString("en-GB", { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });
  return el("li", {}, el("p", { text: `${phone.name}, paired ${made}, until ${until}` }), el("button", { type: "button", text: "Take back", "aria-label": `Take back ${phone.name}, paired ${made}`, onclick: () => takeBack(phone) }));
}

async function look() {
  const { phones } = await get("/phones.json");
  const text = JSON.stringify(phones);
  if (text === shown) return;
  shown = text;
  const ids = new Set(phones.map((one) => one.id));
  if ([...ids].some((id) => !paired.has(id)) && place("phones-picture").src) {
    hidePicture();
    say("A phone was paired.");
  }
  paired = ids;
  place("phones-list").replaceChildren(phones.length ? el("ul", { class: "bench-jobs" }, ...phones.map(line)) : el("p", { text: "None." }));
}

place("phones-code").addEventListener("click", newCode);
await look();
place("phones").dataset.ready = "yes";
setInterval(() => document.visibilityState === "visible" && look().catch(() => say("The server does not answer.")), LOOK_AGAIN);
