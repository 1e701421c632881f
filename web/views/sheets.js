// The sheets' page: the sheet that was asked for comes into view.
import "./plain.js";

document.addEventListener("htmx:afterSettle", () => document.querySelector("[data-wanted]")?.scrollIntoView(), { once: true });
