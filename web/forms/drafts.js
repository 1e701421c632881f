// What is typed and not yet accepted is kept on this device, with the value that it was typed over.
const ROOT = "fitwright draft ";
// A second tab shares the store of the device; what is typed here is not dropped when that one saves its own.
const typedHere = new Map();

const key = (input) => `${ROOT}${location.pathname} ${input.name} ${input.dataset.dim ?? input.dataset.draft}`;
const kept = (input) => typedHere.get(key(input)) ?? JSON.parse(localStorage.getItem(key(input)) ?? "null");
const wasOf = (input) => input.form.elements.was;

export function forget(input) {
  typedHere.delete(key(input));
  localStorage.removeItem(key(input));
  input.closest("form").classList.remove("dirty");
}

export function note(input) {
  const form = input.closest("form");
  const was = wasOf(input)?.value ?? input.defaultValue;
  if (input.value === was) return forget(input);
  const draft = { text: input.value, was };
  typedHere.set(key(input), draft);
  localStorage.setItem(key(input), JSON.stringify(draft));
  form.classList.add("dirty");
}

// Puts drafts back into inputs under a place, each over the value it was typed over: so a change made meanwhile is told.
export function restore(place) {
  for (const input of place.querySelectorAll("[data-dim], [data-draft]")) {
    const draft = kept(input);
    if (!draft) continue;
    input.value = draft.text;
    if (wasOf(input)) wasOf(input).value = draft.was;
    input.closest("form").classList.add("dirty");
  }
}

// A form that was sent and accepted leaves no draft: what was typed is kept in the job now.
const taken = ({ xhr, requestConfig }) => requestConfig.verb === "post" && xhr.status < 400 && requestConfig.elt.matches("form");

export function keepDrafts() {
  restore(document);
  document.addEventListener("input", ({ target }) => target.matches("[data-dim], [data-draft]") && note(target));
  document.addEventListener("submit", ({ target }) => {
    if (!target.hasAttribute("hx-post")) target.querySelectorAll("[data-draft]").forEach(forget);
  });
  document.addEventListener("htmx:beforeSwap", ({ detail }) => taken(detail) && detail.requestConfig.elt.querySelectorAll("[data-draft]").forEach(forget));
  document.addEventListener("htmx:afterSettle", (event) => restore(event.target));
}
