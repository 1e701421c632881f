// News from the server: another device's change shows at once, and after sleep the page reads again.
import { base, revision, setRevision } from "./job.js";
import { me } from "./page.js";
import htmx from "./swaps.js";

let source = null;

function open() {
  source?.close();
  source = new EventSource(`${base}/events?page=${me}&revision=${encodeURIComponent(revision())}`);
  source.addEventListener("job-changed", (event) => {
    const now = JSON.parse(event.data).revision;
    if (now === revision()) return;
    setRevision(now);
    refresh("job-elsewhere");
    refresh("job-changed");
  });
}

export function follow() {
  if (!base) return;
  document.addEventListener("visibilitychange", () => (document.hidden ? source?.close() : open()));
  window.addEventListener("pageshow", (event) => event.persisted && open());
  window.addEventListener("pagehide", () => source?.close());
  if (!document.hidden) open();
}

export function refresh(name) {
  htmx.trigger(document.body, name);
}
