// Requests carry a rising number; an answer that is overtaken by a later one for the same place is dropped, and so is
// one that was made of a state of the job that is past.
import { isPast } from "./job.js";
import { me } from "./page.js";

let turn = 0;
const shown = new WeakMap();

document.addEventListener("htmx:configRequest", (event) => {
  event.detail.headers["X-Fitwright-Turn"] = String(++turn);
  event.detail.headers["X-Fitwright-Page"] = me;
});

document.addEventListener("htmx:beforeSwap", (event) => {
  const { xhr, target, requestConfig } = event.detail;
  const answered = Number(xhr.getResponseHeader("X-Fitwright-Turn"));
  const late = requestConfig?.verb === "get" && isPast(xhr.getResponseHeader("X-Revision"));
  if (late || answered < (shown.get(target) ?? 0)) event.detail.shouldSwap = false;
  else if (answered) shown.set(target, answered);
});
