import { Refusal, send } from "./desk.js";

const form = document.getElementById("measured");
const place = (id) => document.getElementById(id);

function told(error) {
  place("refused").textContent = error instanceof Refusal ? error.words : error.message;
}

/** Where sensors were, one for each. @param {string} line */
export const probes = (line) => line.split(";").map((each) => each.trim()).filter(Boolean);

function address(file) {
  const query = new URLSearchParams({ name: file.name, variant: form.dataset.variant, casting: form.dataset.casting });
  for (const each of probes(place("probes").value)) query.append("probe", each);
  for (const id of ["unit", "at"]) if (place(id).value.trim()) query.set(id, place(id).value.trim());
  return `${form.dataset.url}/pours/${place("pour").value}?${query}`;
}

async function attach(file) {
  const reply = await fetch(address(file), { method: "PUT", body: file });
  const body = await reply.json().catch(() => ({}));
  if (!reply.ok) throw new Refusal(reply.status, body.error ?? {}, body);
}

async function attempt(act) {
  place("refused").textContent = "";
  try {
    await act();
    location.reload();
  } catch (error) {
    told(error);
  }
}

form?.addEventListener("submit", (event) => {
  event.preventDefault();
  const [file] = place("file").files;
  if (file) attempt(() => attach(file));
  else place("refused").textContent = "Choose the file of the logger first.";
});

for (const button of document.querySelectorAll("[data-take-back]"))
  button.addEventListener("click", () => attempt(() => send(`${form.dataset.url}/${button.dataset.takeBack}`, null, "DELETE")));
