// The job that the page is of, the state of it that is shown, and the states that are past.
const holder = document.querySelector("[data-job]");
const past = new Set();

export const base = holder?.dataset.job;
export const revision = () => holder?.dataset.revision ?? "";
export const isPast = (one) => past.has(one);

export function setRevision(now) {
  if (!holder || !now) return;
  past.add(revision());
  past.delete(now); // a dim may be set back to what it was
  holder.dataset.revision = now;
}

document.body.addEventListener("job-changed", ({ detail }) => setRevision(detail?.revision));
