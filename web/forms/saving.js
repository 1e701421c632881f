// A change that could not be sent is told as "not saved" and sent again until it is.
import htmx from "./swaps.js";

const WAITS = [1, 2, 4, 8, 15];
const unsent = new Map();

function tell() {
  const place = document.getElementById("saving");
  const count = unsent.size;
  place.textContent = count ? `Not saved: ${[...unsent.values()].map((one) => one.what).join(", ")}. Trying again…` : "";
  place.classList.toggle("unsaved", count > 0);
}

function failed(event) {
  const form = event.detail.elt.closest("form");
  if (!form || event.detail.requestConfig?.verb === "get") return;
  const known = unsent.get(form) ?? { tries: 0 };
  const wait = WAITS[Math.min(known.tries, WAITS.length - 1)];
  const step = event.detail.requestConfig?.parameters?.step;
  clearTimeout(known.timer);
  const timer = setTimeout(() => again(form, step), wait * 1000);
  unsent.set(form, { tries: known.tries + 1, what: form.dataset.what ?? form.querySelector("label")?.textContent, timer });
  tell();
}

function again(form, step) {
  if (!form.isConnected) return sent(form);
  const button = step && form.querySelector(`button[name=step][value=${step}]`);
  if (button) form.requestSubmit(button);
  else htmx.trigger(form, "submit");
}

function sent(form) {
  clearTimeout(unsent.get(form)?.timer);
  unsent.delete(form);
  tell();
}

for (const name of ["htmx:sendError", "htmx:timeout", "htmx:sendAbort"]) document.addEventListener(name, failed);
document.addEventListener("htmx:responseError", (event) => {
  if (event.detail.xhr.status >= 500) failed(event);
  else if (event.detail.xhr.status === 403) location.reload();
});
document.addEventListener("htmx:afterOnLoad", (event) => {
  const form = event.detail.elt.closest?.("form");
  if (form && unsent.has(form)) sent(form);
});
window.addEventListener("online", () => unsent.forEach((_, form) => again(form)));
