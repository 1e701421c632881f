// Marks that are there: chosen by a tap or by keys, moved by finger, mouse or arrow keys.
import { ask, keep } from "./asking.js";
import { magnify, put as putLens } from "./lens.js";
import { bring, perPixel, stage } from "./stage.js";

const REACH = 22;
const RESTS = 500;
const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const list = document.getElementById("photo-spot");
const said = document.getElementById("photo-said");
let chosen = null;
let moving = null; // a mark under way is where the finger is, whatever the server has answered by now
let timer = 0;

const circles = () => [...document.querySelectorAll("#photo-overlay [data-spot]")];
const at = (circle) => ({ u: Number(circle.getAttribute("cx")), v: Number(circle.getAttribute("cy")) });
export const circleOf = (name) => circles().find((one) => one.dataset.spot === name);

export function nearest({ u, v }, within = REACH) {
  const reach = within * perPixel();
  const off = (circle) => Math.hypot(at(circle).u - u, at(circle).v - v);
  return circles().filter((one) => off(one) < reach).sort((one, other) => off(one) - off(other))[0];
}

export function choose(name, shows = true) {
  chosen = name;
  for (const one of circles()) one.classList.toggle("chosen", one.dataset.spot === name);
  const circle = circleOf(name);
  if (!circle) return;
  list.value = name;
  if (shows) bring(at(circle));
  said.textContent = `${name}: ${at(circle).u.toFixed(1)}, ${at(circle).v.toFixed(1)} px`;
}

function put(name, place) {
  const circle = circleOf(name);
  circle?.setAttribute("cx", place.u);
  circle?.setAttribute("cy", place.v);
}

function moveTo(name, place) {
  moving = { name, place };
  put(name, place);
  said.textContent = `${name}: ${place.u.toFixed(1)}, ${place.v.toFixed(1)} px`;
  ask(name, place);
}

function rest(name, place) {
  moving = null;
  keep(name, place);
}

export function listed() {
  const names = circles().map((one) => one.dataset.spot);
  if ([...list.options].map((one) => one.value).join() !== names.join()) list.replaceChildren(...names.map((name) => new Option(name, name)));
  if (moving) put(moving.name, moving.place);
  if (chosen) choose(chosen, false);
}

// A finger that has taken hold of a mark moves it; where it was taken beside its middle it stays beside it.
export function take(circle, place, event) {
  const name = circle.dataset.spot;
  choose(name, false);
  const from = at(circle);
  const [du, dv] = [from.u - place.u, from.v - place.v];
  let here = null;
  magnify(from, event);
  return {
    move(next, moved) {
      here = { u: next.u + du, v: next.v + dv };
      moveTo(name, here);
      magnify(here, moved);
    },
    end() {
      putLens();
      if (here) rest(name, here);
    },
  };
}

export function keys(event) {
  const step = STEPS[event.key];
  if (step && chosen && !event.ctrlKey && !event.metaKey) {
    event.preventDefault();
    const size = event.shiftKey ? 0.1 : 1;
    const from = at(circleOf(chosen));
    const place = { u: from.u + size * step[0], v: from.v + size * step[1] };
    const name = chosen;
    moveTo(name, place);
    magnify(place);
    clearTimeout(timer);
    timer = setTimeout(() => (rest(name, place), putLens()), RESTS);
  } else if (event.key === "PageDown" || event.key === "PageUp") {
    event.preventDefault();
    const names = circles().map((one) => one.dataset.spot);
    const next = names.indexOf(chosen) + (event.key === "PageDown" ? 1 : -1);
    choose(names[(next + names.length) % names.length]);
  }
}

list?.addEventListener("change", () => (choose(list.value), stage.focus()));
