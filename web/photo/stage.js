// The part of the picture that is in view: nearer, further, shifted; and where a finger is on it.
const svg = document.getElementById("photo");
const whole = { u: 0, v: 0, wide: Number(svg?.dataset.wide), high: Number(svg?.dataset.high) };
const NEAREST = 40;
let view = { ...whole };
const followers = [];

export const stage = svg;
export const onView = (follow) => followers.push(follow);

export function perPixel() {
  const box = svg.getBoundingClientRect();
  return Math.max(view.wide / box.width, view.high / box.height);
}

export function show(next) {
  const wide = Math.min(Math.max(next.wide, whole.wide / NEAREST), whole.wide);
  const high = (wide * whole.high) / whole.wide;
  view = {
    u: Math.min(Math.max(next.u, 0), whole.wide - wide),
    v: Math.min(Math.max(next.v, 0), whole.high - high),
    wide,
    high,
  };
  svg.setAttribute("viewBox", `${view.u} ${view.v} ${view.wide} ${view.high}`);
  sized();
}

export function sized() {
  svg.style.setProperty("--u", perPixel());
  followers.forEach((follow) => follow());
}

export function zoom(by, at = { u: view.u + view.wide / 2, v: view.v + view.high / 2 }) {
  const wide = view.wide / by;
  const share = Math.min(Math.max(wide, whole.wide / NEAREST), whole.wide) / view.wide;
  show({ u: at.u - (at.u - view.u) * share, v: at.v - (at.v - view.v) * share, wide });
}

export const all = () => show(whole);
export const shift = (du, dv) => show({ ...view, u: view.u - du, v: view.v - dv });
export const shown = () => view;

export function placeOf(event) {
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  return { u: at.x - 0.5, v: at.y - 0.5 };
}

export function bring({ u, v }) {
  const edge = 0.08 * view.wide;
  if (u > view.u + edge && u < view.u + view.wide - edge && v > view.v + edge && v < view.v + view.high - edge) return;
  show({ ...view, u: u - view.wide / 2, v: v - view.high / 2 });
}
