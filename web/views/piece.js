// The piece's page: dims, the view in 3-D, findings, kept in step with the file and with other devices.
import "./plain.js";
import { accepted, setRevision } from "../forms/dims.js";
import { listen, refresh } from "../forms/news.js";
import { openScene } from "../scene/scene.js";

const page = document.getElementById("piece");
const base = page.dataset.job;
const scene = openScene(base);

document.body.addEventListener("job-changed", ({ detail }) => {
  if (detail?.revision) setRevision(detail.revision);
  if (detail?.name) accepted(detail.name, detail.text);
  if (detail?.structure) refresh("dims-elsewhere");
  scene.fetch();
});

listen(base, () => page.dataset.revision, (revision) => {
  page.dataset.revision = revision;
  refresh("dims-elsewhere");
  refresh("job-changed");
});
