// Asks the server: what a mark would measure elsewhere, at once and the newest only; what is kept, once a mark rests.
import htmx from "../forms/swaps.js";
import { base, revision } from "../forms/job.js";

const token = () => JSON.parse(document.body.getAttribute("hx-headers"))["X-Fitwright-Token"];
let asked = 0;
let waiting = null;
let under = false;

async function post(what, fields) {
  const headers = { "X-Fitwright-Token": token(), "HX-Request": "true", "Content-Type": "application/x-www-form-urlencoded" };
  return fetch(`${base}/photo/${what}`, { method: "POST", headers, body: new URLSearchParams(fields) });
}

export function put(text) {
  const parsed = new DOMParser().parseFromString(text, "text/html");
  const overlay = parsed.getElementById("photo-overlay");
  overlay?.remove();
  const old = document.getElementById("photo-overlay");
  if (overlay && old) old.replaceWith(overlay);
  const results = document.getElementById("photo-results");
  results.replaceChildren(...parsed.body.childNodes);
  htmx.process(results);
  document.dispatchEvent(new CustomEvent("photo-drawn"));
}

// While a mark moves: one question at a time, and always the newest.
export async function ask(spot, { u, v }) {
  waiting = { spot, u: u.toFixed(2), v: v.toFixed(2) };
  if (under) return;
  under = true;
  while (waiting) {
    const [now, turn, state] = [waiting, ++asked, revision()];
    waiting = null;
    const began = performance.now();
    const answer = await post("moved", now).catch(() => null);
    if (answer?.ok && turn === asked && state === revision()) put(await answer.text());
    document.getElementById("photo").dataset.answered = Math.round(performance.now() - began);
  }
  under = false;
}

// Kept by the same form that works without a script, so that what fails is told and sent again.
export function keep(spot, { u, v }) {
  const form = document.querySelector('form[action$="/photo/move"]');
  form.elements.spot.value = spot;
  form.elements.u.value = u.toFixed(2);
  form.elements.v.value = v.toFixed(2);
  htmx.trigger(form, "submit");
}

export async function snap(places) {
  const answer = await post("snapped", { spots: places.map(({ u, v }) => `${u.toFixed(2)}, ${v.toFixed(2)}`).join("; ") });
  return answer.ok ? (await answer.json()).map(([u, v]) => ({ u, v })) : places;
}
