// How the editor looks: the page's own colours, in light and dark.
import { EditorView } from "@codemirror/view";

export const look = EditorView.theme({
  "&": { color: "var(--ink)", backgroundColor: "var(--card)", border: "2px solid var(--rule)", borderRadius: ".4rem", fontSize: "1rem" },
  "&.cm-focused": { outline: "3px solid var(--focus)", outlineOffset: "2px" },
  ".cm-scroller": { fontFamily: "ui-monospace, monospace", lineHeight: "1.5", minHeight: "24rem", maxHeight: "72vh" },
  ".cm-content": { caretColor: "var(--ink)" },
  ".cm-cursor": { borderLeftColor: "var(--ink)" },
  ".cm-gutters": { backgroundColor: "var(--paper)", color: "var(--soft)", border: "none" },
  ".cm-activeLine, .cm-activeLineGutter": { backgroundColor: "var(--touch)" },
  ".cm-selectionBackground, &.cm-focused .cm-selectionBackground": { backgroundColor: "var(--warn-paper) !important" },
  ".cm-line span": { color: "inherit !important" },
  ".cm-tooltip": { backgroundColor: "var(--card)", color: "var(--ink)", border: "2px solid var(--rule)" },
  ".cm-tooltip-autocomplete > ul > li": { minHeight: "2.75rem", display: "flex", alignItems: "center", gap: ".8rem" },
  ".cm-tooltip-autocomplete > ul > li[aria-selected]": { backgroundColor: "var(--act)", color: "var(--on-act)" },
  ".cm-lint-marker-error": { content: "none", background: "var(--bad)", borderRadius: "50%", width: ".9em", height: ".9em" },
  ".cm-diagnostic-error": { borderLeft: ".4rem solid var(--bad)" },
  ".cm-lintRange-error": { backgroundImage: "none", textDecoration: "underline wavy var(--bad)" },
});
