// Requests carry a rising number; an answer that is overtaken by a later one for the same place is dropped.
import { me } from "./page.js";

let turn = 0;
const shown = new WeakMap();

document.addEventListener("htmx:configRequest", (event) => {
  event.detail.headers["X-Fitwright-Turn"] = String(++turn);
  event.detail.headers["X-Fitwright-Page"] = me;
});

document.addEventListener("htmx:beforeSwap", (event) => {
  const { xhr, target } = event.detail;
  const answered = Number(xhr.getResponseHeader("X-Fitwright-Turn"));
  if (!answered) return;
  if (answered < (shown.get(target) ?? 0)) event.detail.shouldSwap = false;
  else shown.set(target, answered);
});
