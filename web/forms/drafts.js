// What is typed and not yet accepted is kept on this device, with the value that it was typed over.
const ROOT = "fitwright draft ";

const key = (input) => `${ROOT}${location.pathname} ${input.name} ${input.dataset.dim ?? input.dataset.draft}`;
const kept = (input) => JSON.parse(localStorage.getItem(key(input)) ?? "null");
const wasOf = (input) => input.form.elements.was;

export function forget(input) {
  localStorage.removeItem(key(input));
  input.closest("form").classList.remove("dirty");
}

export function note(input) {
  const form = input.closest("form");
  const was = wasOf(input)?.value ?? input.defaultValue;
  if (input.value === was) return forget(input);
  localStorage.setItem(key(input), JSON.stringify({ text: input.value, was }));
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

export function keepDrafts() {
  restore(document);
  document.addEventListener("input", ({ target }) => target.matches("[data-dim], [data-draft]") && note(target));
  document.addEventListener("submit", ({ target }) => {
    if (!target.hasAttribute("hx-post")) target.querySelectorAll("[data-draft]").forEach(forget);
  });
  document.addEventListener("htmx:afterSettle", (event) => restore(event.target));
}
