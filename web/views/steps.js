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
  if (card) card.querySelector("details").open = true;
}
addEventListener("hashchange", named);
document.addEventListener("htmx:afterSettle", show);
document.addEventListener("htmx:afterSettle", named, { once: true });
named();
