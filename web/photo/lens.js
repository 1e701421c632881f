// The magnifier: what lies under the finger, four times as large as on the stage, in a corner away from it.
import { perPixel, stage } from "./stage.js";

const lens = document.getElementById("photo-lens");
const NS = "http://www.w3.org/2000/svg";
const TIMES = 4;

function part(name, said) {
  const made = document.createElementNS(NS, name);
  for (const [key, value] of Object.entries(said)) made.setAttribute(key, value);
  return lens.appendChild(made);
}

let cross = null;

function fill() {
  if (cross) return;
  const { wide, high } = stage.dataset;
  part("image", { href: document.getElementById("photo-picture").getAttribute("href"), width: wide, height: high });
  part("use", { href: "#photo-overlay" });
  cross = part("path", { class: "cross" });
}

export function magnify({ u, v }, event) {
  fill();
  lens.hidden = false;
  lens.removeAttribute("hidden");
  const size = lens.getBoundingClientRect().width;
  const half = (size * perPixel()) / TIMES / 2;
  const [x, y] = [u + 0.5, v + 0.5];
  lens.setAttribute("viewBox", `${x - half} ${y - half} ${2 * half} ${2 * half}`);
  lens.style.setProperty("--u", perPixel() / TIMES);
  cross.setAttribute("d", `M${x - half} ${y}H${x - half / 8}M${x + half / 8} ${y}H${x + half}M${x} ${y - half}V${y - half / 8}M${x} ${y + half / 8}V${y + half}`);
  const box = stage.getBoundingClientRect();
  const left = event ? event.clientX < box.left + box.width / 2 : false;
  lens.classList.toggle("right", left);
}

export function put() {
  lens.setAttribute("hidden", "");
}
