// News from the server: another device's change shows at once, and after sleep the page reads again.
import { me } from "./page.js";
import htmx from "./swaps.js";

export function listen(base, revision, changed) {
  let source = null;
  const open = () => {
    source?.close();
    source = new EventSource(`${base}/events?page=${me}&revision=${encodeURIComponent(revision())}`);
    source.addEventListener("job-changed", (event) => {
      const now = JSON.parse(event.data).revision;
      if (now !== revision()) changed(now);
    });
  };
  document.addEventListener("visibilitychange", () => (document.hidden ? source?.close() : open()));
  window.addEventListener("pageshow", (event) => event.persisted && open());
  window.addEventListener("pagehide", () => source?.close());
  open();
}

export function refresh(name) {
  htmx.trigger(document.body, name);
}
