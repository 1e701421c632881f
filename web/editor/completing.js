// What to offer: keys of the section at the beginning of a line, the job's own names after a colon.
const WORD = /[\w.]*$/;

export function completer(words) {
  return async (context) => {
    const line = context.state.doc.lineAt(context.pos);
    const before = line.text.slice(0, context.pos - line.from);
    const begun = before.match(WORD)[0];
    if (!begun && !context.explicit) return null;
    const found = await words();
    const isKey = /^\s*[\w.]*$/.test(before) || /[{,]\s*[\w.]*$/.test(before) && !/\[[^\]]*$/.test(before);
    const options = isKey ? keys(found, context.state.doc, line) : found.values;
    return {
      from: context.pos - begun.length,
      options: options.map(({ label, detail }) => ({ label, detail: detail.slice(0, 60), apply: isKey ? `${label}: ` : label })),
      validFor: /^[\w.]*$/,
    };
  };
}

function keys(found, doc, line) {
  if (!/^\s/.test(line.text)) return found.top;
  for (let number = line.number - 1; number > 0; number--) {
    const section = doc.line(number).text.match(/^(\w+):/)?.[1];
    if (section) return found[section] ?? [];
  }
  return found.top;
}
