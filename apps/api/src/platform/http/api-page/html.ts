/** A piece of HTML: what was put into it is escaped already. */
export class Html {
  constructor(readonly text: string) {}
}

type Part = Html | string | number | readonly Html[];

const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };
const escaped = (text: string): string => text.replace(/[&<>"']/g, (c) => escapes[c] ?? c);

function written(part: Part): string {
  if (part instanceof Html) return part.text;
  return typeof part === 'object' ? part.map((p) => p.text).join('') : escaped(String(part));
}

/** HTML from a template: a piece goes in as it is, everything else as text. */
export const html = (strings: TemplateStringsArray, ...parts: readonly Part[]): Html =>
  new Html(strings.map((s, i) => s + (i < parts.length ? written(parts[i] ?? '') : '')).join(''));

export const nothing = html``;
