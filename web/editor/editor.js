// The text editor: YAML, mistakes at their line, words to complete with. It lives in a shadow tree, whose style sheets
// the content policy allows.
import { autocompletion, closeBrackets, completionKeymap } from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap } from "@codemirror/commands";
import { yaml } from "@codemirror/lang-yaml";
import { bracketMatching, defaultHighlightStyle, indentUnit, syntaxHighlighting } from "@codemirror/language";
import { lintGutter, lintKeymap, linter } from "@codemirror/lint";
import { EditorState } from "@codemirror/state";
import { EditorView, drawSelection, highlightActiveLine, keymap, lineNumbers } from "@codemirror/view";
import { look } from "./look.js";

export function openEditor(holder, text, { mistakes, complete, changed }) {
  const root = holder.attachShadow({ mode: "open" });
  const view = new EditorView({
    parent: root,
    root,
    state: EditorState.create({
      doc: text,
      extensions: [
        lineNumbers(), history(), drawSelection(), bracketMatching(), closeBrackets(), highlightActiveLine(), lintGutter(),
        syntaxHighlighting(defaultHighlightStyle), indentUnit.of("  "), yaml(), look,
        EditorView.lineWrapping,
        EditorView.contentAttributes.of({ "aria-label": "The text of the job file", spellcheck: "false", autocapitalize: "none", tabindex: "0" }),
        linter(async (editor) => marksOf(editor.state.doc, await mistakes(editor.state.doc.toString())), { delay: 400 }),
        autocompletion({ override: [complete] }),
        keymap.of([...completionKeymap, ...lintKeymap, ...historyKeymap, ...defaultKeymap]),
        EditorView.updateListener.of((update) => update.docChanged && changed(update.state.doc.toString())),
      ],
    }),
  });
  return {
    text: () => view.state.doc.toString(),
    replace: (now) => replace(view, now),
    goTo(line, focus = true) {
      const at = view.state.doc.line(Math.min(Math.max(line, 1), view.state.doc.lines));
      view.dispatch({ selection: { anchor: at.from }, effects: EditorView.scrollIntoView(at.from, { y: "center" }) });
      if (focus) view.focus();
    },
  };
}

function marksOf(doc, mistakes) {
  return mistakes.map(({ line, column, told }) => {
    const at = doc.line(Math.min(Math.max(line, 1), doc.lines));
    const from = Math.min(at.from + Math.max(column - 1, 0), at.to);
    return { from, to: at.to, severity: "error", message: told };
  });
}

// Only the part that differs is replaced, so that the cursor stays where it is.
function replace(view, now) {
  const was = view.state.doc.toString();
  if (was === now) return;
  let start = 0;
  while (start < was.length && was[start] === now[start]) start++;
  let end = 0;
  while (end < Math.min(was.length, now.length) - start && was.at(-1 - end) === now.at(-1 - end)) end++;
  view.dispatch({ changes: { from: start, to: was.length - end, insert: now.slice(start, now.length - end) } });
}
