// The photo's page: look, choose and move marks, tap new ones, lay the piece over it.
import "./plain.js";
import { base, revision } from "../forms/job.js";
import { put } from "../photo/asking.js";
import { choose, keys, listed, nearest, take } from "../photo/marks.js";
import { all, onView, placeOf, perPixel, shift, sized, stage, zoom } from "../photo/stage.js";
import { done, open, tap, tapping } from "../photo/tapping.js";

const NEARER = 1.5;
const STILL = 6;
const over = document.getElementById("photo-over");

function lay(size) {
  for (const button of document.querySelectorAll("[data-lay]")) button.setAttribute("aria-pressed", button.dataset.lay === size);
  stage.dataset.laid = size ?? "";
  if (size) over.setAttribute("href", `${over.dataset.href}?size=${size}&revision=${encodeURIComponent(revision())}`);
  over.toggleAttribute("hidden", !size);
}

// One finger or the mouse: on a mark it moves it, elsewhere it shifts the picture; a tap chooses or marks. Two: nearer.
function pointers() {
  const down = new Map();
  let held = null;
  let apart = 0;
  let far = 0;
  stage.addEventListener("pointerdown", (event) => {
    stage.setPointerCapture(event.pointerId);
    down.set(event.pointerId, event);
    far = 0;
    if (down.size === 2) apart = spread(down);
    const circle = down.size === 1 && !tapping() ? nearest(placeOf(event)) : null;
    held = circle ? take(circle, placeOf(event), event) : null;
  });
  stage.addEventListener("pointermove", (event) => {
    const before = down.get(event.pointerId);
    if (!before) return;
    far += Math.hypot(event.clientX - before.clientX, event.clientY - before.clientY);
    down.set(event.pointerId, event);
    if (down.size === 2) {
      const now = spread(down);
      zoom(now / apart, placeOf(middle(down)));
      apart = now;
    } else if (held) {
      if (far > STILL) held.move(placeOf(event), event);
    } else if (far > STILL) shift((event.clientX - before.clientX) * perPixel(), (event.clientY - before.clientY) * perPixel());
  });
  const up = (event) => {
    if (!down.delete(event.pointerId)) return;
    if (far <= STILL && tapping() && event.type === "pointerup") tap(placeOf(event));
    held?.end();
    held = null;
  };
  for (const name of ["pointerup", "pointercancel"]) stage.addEventListener(name, up);
  stage.addEventListener("wheel", (event) => {
    event.preventDefault();
    zoom(event.deltaY < 0 ? 1.2 : 1 / 1.2, placeOf(event));
  }, { passive: false });
}

const two = (down) => [...down.values()];
const spread = (down) => Math.max(Math.hypot(two(down)[0].clientX - two(down)[1].clientX, two(down)[0].clientY - two(down)[1].clientY), 1);
const middle = (down) => ({ clientX: (two(down)[0].clientX + two(down)[1].clientX) / 2, clientY: (two(down)[0].clientY + two(down)[1].clientY) / 2 });

function revisions() {
  for (const field of document.querySelectorAll("#main input[name=revision]")) field.value = revision();
  if (stage?.dataset.laid) lay(stage.dataset.laid);
}

function begin() {
  document.getElementById("photo-tools").hidden = false;
  pointers();
  open();
  onView(listed);
  stage.addEventListener("keydown", (event) => {
    if (event.key === "+" || event.key === "=") zoom(NEARER);
    else if (event.key === "-") zoom(1 / NEARER);
    else keys(event);
  });
  document.getElementById("photo-tools").addEventListener("click", ({ target }) => {
    const { zoom: by, lay: size } = target.closest("button")?.dataset ?? {};
    if (by) by === "all" ? all() : zoom(by === "in" ? NEARER : 1 / NEARER);
    if (size) lay(stage.dataset.laid === size ? null : size);
  });
  document.addEventListener("photo-drawn", listed);
  new ResizeObserver(sized).observe(stage);
  sized();
  document.documentElement.dataset.photo = "ready";
}

// What the server answers to a change brings the marks drawn anew; a change that was kept empties its form.
document.addEventListener("htmx:beforeSwap", (event) => {
  if (event.detail.target.id !== "photo-results" || !event.detail.shouldSwap) return;
  event.detail.shouldSwap = false;
  put(event.detail.serverResponse);
  const form = event.detail.requestConfig?.elt.closest("form[data-taps]");
  if (form && event.detail.xhr.status === 200 && !form.action.endsWith("/move")) done(form);
});
document.body.addEventListener("job-changed", () => queueMicrotask(revisions));
document.body.addEventListener("job-elsewhere", () => queueMicrotask(revisions));

if (stage && base) begin();
export { choose };
