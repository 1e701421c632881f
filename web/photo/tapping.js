// Spots tapped on the photo go into the field of the form that asks for them.
import { snap } from "./asking.js";
import { nearest } from "./marks.js";
import { onView, perPixel } from "./stage.js";

const NS = "http://www.w3.org/2000/svg";
const NEAR = 12;
const group = document.getElementById("photo-new");
let field = null;

const places = () => field.value.split(";").map((word) => word.trim()).filter(Boolean);
const pixels = (word) => /^\[?(-?[\d.]+)[, ]+(-?[\d.]+)\]?$/.exec(word);

export const tapping = () => field !== null;

function draw() {
  const shown = field ? places().map(pixels).filter(Boolean) : [];
  group.replaceChildren(...shown.map(([, u, v]) => {
    const circle = document.createElementNS(NS, "circle");
    circle.setAttribute("class", "new");
    circle.setAttribute("cx", u);
    circle.setAttribute("cy", v);
    return circle;
  }));
}

function begin(id) {
  field = id === null ? null : document.getElementById(id);
  for (const button of document.querySelectorAll("[data-tap]")) button.setAttribute("aria-pressed", button.dataset.tap === id);
  draw();
}

// A tap on a mark that is there takes that mark itself, so that what is measured hangs together.
export function tap(place) {
  const there = nearest(place, NEAR);
  const words = [...places(), there && !there.dataset.spot.startsWith("[") ? there.dataset.spot : `${place.u.toFixed(1)}, ${place.v.toFixed(1)}`];
  field.value = words.join("; ");
  draw();
}

// Places moved onto the strongest edge near the line between the first and the last; names stay as they are.
async function onto(id) {
  const input = document.getElementById(id);
  const words = input.value.split(";").map((word) => word.trim()).filter(Boolean);
  const found = words.map(pixels).filter(Boolean).map(([, u, v]) => ({ u: Number(u), v: Number(v) }));
  if (found.length < 2) return;
  const there = await snap(found);
  input.value = words.map((word) => (pixels(word) ? there.shift() : word)).map((one) => (one.u ? `${one.u.toFixed(2)}, ${one.v.toFixed(2)}` : one)).join("; ");
  draw();
}

export function open() {
  for (const line of document.querySelectorAll(".tap-line")) line.hidden = false;
  document.addEventListener("click", ({ target }) => {
    const button = target.closest("[data-tap], [data-clear], [data-snap]");
    if (!button) return;
    if (button.dataset.snap) onto(button.dataset.snap);
    else if (button.dataset.tap) begin(button.getAttribute("aria-pressed") === "true" ? null : button.dataset.tap);
    else document.getElementById(button.dataset.clear).value = "";
    draw();
    if (button.dataset.tap && field) document.getElementById("photo-stage").scrollIntoView({ block: "nearest" });
  });
  document.addEventListener("input", ({ target }) => target === field && draw());
  onView(() => {
    for (const near of document.querySelectorAll(".mark-form input[name=near]")) near.value = (NEAR * perPixel()).toFixed(1);
  });
}

export function done(form) {
  for (const spots of form.querySelectorAll("input[name=spots]")) spots.value = "";
  begin(null);
}
