// The piece's page: dims, the view in 3-D, findings, kept in step with the file and with other devices.
import "./plain.js";
import { accepted, dimsAreOf } from "../forms/dims.js";
import { base } from "../forms/job.js";
import { refresh } from "../forms/news.js";
import { openScene } from "../scene/scene.js";

const scene = openScene(base);

document.body.addEventListener("job-changed", ({ detail }) => {
  if (detail?.revision) dimsAreOf(detail.revision);
  if (detail?.name) accepted(detail.name, detail.text);
  if (detail?.structure) refresh("dims-elsewhere");
  scene.fetch();
});
document.body.addEventListener("job-elsewhere", () => refresh("dims-elsewhere"));
