// Parts by form and the job file as text: what is saved on one side shows on the other.
import "./plain.js";
import { openEditor } from "../editor/editor.js";
import { completer } from "../editor/completing.js";
import { base } from "../forms/job.js";
import { refresh } from "../forms/news.js";

const form = document.getElementById("text-form");
const area = document.getElementById("text");
const hint = document.getElementById("editor-hint");
const draftKey = `fitwright draft ${base} text`;
const posted = (text) => ({ method: "POST", body: new URLSearchParams({ text, token: form.elements.token.value }) });
let saved = area.value;
let words = null;

const editor = openEditor(document.getElementById("editor"), area.value, {
  mistakes: async (text) => (await fetch(`${base}/file/check`, posted(text))).json().catch(() => []),
  complete: completer(() => (words ??= fetch(`${base}/file/words`).then((answer) => answer.json()))),
  changed: (text) => {
    area.value = text;
    if (text === saved) localStorage.removeItem(draftKey);
    else localStorage.setItem(draftKey, JSON.stringify({ text, revision: form.elements.revision.value }));
    hint.textContent = text === saved ? "" : "Changed, not saved yet.";
  },
});

document.getElementById("editor").hidden = false;
area.hidden = true;
const draft = JSON.parse(localStorage.getItem(draftKey) ?? "null");
if (draft && draft.text !== saved) {
  editor.replace(draft.text);
  form.querySelector("input[name=revision]").value = draft.revision;
}
if (Number(area.dataset.line)) editor.goTo(Number(area.dataset.line));

async function read() {
  const answer = await fetch(`${base}/file/text`);
  if (!answer.ok) return;
  const text = await answer.text();
  const clean = editor.text() === saved || editor.text() === text;
  if (!clean) {
    hint.textContent = "The file was changed elsewhere: saving will show both.";
    return;
  }
  saved = text;
  editor.replace(text);
  localStorage.removeItem(draftKey);
  hint.textContent = "";
  for (const input of document.querySelectorAll("input[name=revision]")) input.value = answer.headers.get("X-Revision");
}

document.body.addEventListener("job-changed", ({ detail }) => {
  if (!detail?.revision) return;
  read();
  if (detail.elt?.closest?.("#text-form")) refresh("parts-elsewhere");
});
document.body.addEventListener("job-elsewhere", () => {
  read();
  refresh("parts-elsewhere");
});

document.addEventListener("click", (event) => {
  const line = event.target.closest("a[data-line]");
  if (event.target.closest("[data-take-theirs]")) localStorage.removeItem(draftKey);
  if (!line) return;
  event.preventDefault();
  editor.goTo(Number(line.dataset.line));
});
