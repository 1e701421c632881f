// The steps' page: a timer that runs is shown running, whether the tablet slept or not.
import "./plain.js";

const begun = new WeakMap();

function show() {
  for (const clock of document.querySelectorAll(".clock[data-seconds]")) {
    if (!begun.has(clock)) begun.set(clock, Date.now() - 1000 * Number(clock.dataset.seconds));
    const seconds = Math.max(0, Math.floor((Date.now() - begun.get(clock)) / 1000));
    const part = (value) => String(value).padStart(2, "0");
    clock.textContent = `${Math.floor(seconds / 3600)}:${part(Math.floor(seconds / 60) % 60)}:${part(seconds % 60)}`;
  }
}

setInterval(show, 1000);
show();

// A step that the address names is opened.
function named() {
  const card = location.hash.startsWith("#step-") && document.getElementById(location.hash.slice(1));
  if (!card) return;
  card.querySelector("details").open = true;
  byHand.set(card.id, true);
}
addEventListener("hashchange", named);
document.addEventListener("htmx:afterSettle", show);

// A card that was opened or closed by hand stays so when a reading is kept, or another device's news come in.
const byHand = new Map();
document.addEventListener("click", ({ target }) => {
  const card = target.closest?.(".step-card > details > summary")?.parentElement;
  if (card) byHand.set(card.parentElement.id, !card.open);
});
document.addEventListener("htmx:afterSwap", () => {
  for (const [id, open] of byHand) {
    const card = document.querySelector(`#${id}:not(.done) > details`);
    if (card) card.open = open;
  }
});

// After "done" the next step comes to the top, opened: else its own "done" would lie where the finger still is.
let ticked = false;
document.addEventListener("htmx:beforeSwap", ({ detail }) => {
  const { verb, parameters } = detail.requestConfig;
  // kept until it is acted on: what other devices do may be swapped in between
  if (detail.xhr.status < 400 && verb === "post" && parameters?.done === "yes") ticked = true;
});
document.addEventListener("htmx:afterSettle", () => {
  if (!ticked) return;
  ticked = false;
  const next = document.querySelector(".next a");
  const card = (next && document.querySelector(next.hash)) ?? document.querySelector(".standing");
  card.querySelector("details")?.setAttribute("open", "");
  card.scrollIntoView();
  card.querySelector("summary")?.focus({ preventScroll: true });
});
document.addEventListener("htmx:afterSettle", named, { once: true });
named();
