// The list of dims: accepted values in, half-typed ones left alone, conflicts answered.
import htmx from "./swaps.js";
import { forget } from "./drafts.js";

const inputOf = (name) => document.getElementById(`text-${name}`);

export function dimsAreOf(revision) {
  for (const input of document.querySelectorAll("#dims input[name=revision]")) input.value = revision;
}

export function accepted(name, text) {
  const input = inputOf(name);
  if (!input) return;
  const typedOn = document.activeElement === input && input.dataset.sent !== undefined && input.value !== input.dataset.sent;
  input.form.elements.was.value = text;
  if (typedOn) return;
  input.value = text;
  forget(input);
}

// Saves only what differs from what is accepted; notes what was sent, so that typing on meanwhile is not lost.
document.addEventListener("htmx:configRequest", (event) => {
  const input = event.detail.elt.querySelector?.("[data-dim]");
  if (!input || event.detail.verb !== "post") return;
  const now = document.getElementById(`value-${input.dataset.dim}`)?.dataset.now;
  if (!event.detail.parameters.get("step") && input.value === now && input.form.elements.was.value === now) event.preventDefault();
  input.dataset.sent = input.value;
});

document.addEventListener("click", ({ target }) => {
  const button = target.closest("[data-take]");
  if (!button) return;
  const { take, name, text, was, revision } = button.dataset;
  const input = inputOf(name);
  dimsAreOf(revision);
  input.form.elements.was.value = was;
  input.value = text;
  input.form.querySelector(".dim-said").replaceChildren();
  if (take === "mine") htmx.trigger(input.form, "submit");
  else forget(input);
  input.focus();
});
