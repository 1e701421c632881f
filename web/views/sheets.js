// The sheets' page: drawn again when the job has changed.
import "./plain.js";
import { listen, refresh } from "../forms/news.js";

const page = document.getElementById("job");

listen(page.dataset.job, () => page.dataset.revision, (revision) => {
  page.dataset.revision = revision;
  refresh("job-changed");
});

document.addEventListener("htmx:afterSettle", () => document.querySelector("[data-wanted]")?.scrollIntoView(), { once: true });
