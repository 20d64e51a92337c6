/** A note as it is printed: three lines or more, a blank one, and its signatures. */
const aNote = /[^\n]+\n[0-9]+\n[A-Za-z0-9+/=]{44}\n(?:[^\n]+\n)*\n(?:\u2014 [^\n]+(?:\n|$))+/g;

/** What somebody typed or pasted of what they had before: whole notes, and besides them one key or root a line; lines that begin with # are for people. */
export function heldIn(text: string): string[] {
  const lines = text.replace(/\r\n?/g, '\n').split('\n');
  const clean = lines.map((line) => line.trim()).join('\n');
  const rest = clean.replace(aNote, '\n').split('\n');
  return [...(clean.match(aNote) ?? []), ...rest].map((one) => one.trim()).filter((one) => one !== '' && !/^#(?: |$)/.test(one));
}
