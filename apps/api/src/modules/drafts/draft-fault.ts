/** A NUL, which PostgreSQL's text cannot hold, or half a surrogate pair, which is no character at all. */
const unstorable = /\u0000|\p{Surrogate}/u;
const maxDepth = 16;
/** Some ten times what the largest plan has. */
const maxValues = 50_000;

/** Why a text cannot be kept as a draft at all, or undefined. Walks without recursion: a body may be nested as deep as it is long. */
export function draftFault(content: unknown): string | undefined {
  const left: { readonly value: unknown; readonly depth: number }[] = [{ value: content, depth: 0 }];
  let seen = 0;
  for (let next = left.pop(); next; next = left.pop()) {
    if ((seen += 1) > maxValues) return `at most ${maxValues} values`;
    const { value, depth } = next;
    if (depth > maxDepth) return `at most ${maxDepth} levels of lists and objects`;
    if (typeof value === 'string' && unstorable.test(value)) return 'text without NUL characters and broken surrogates';
    if (typeof value === 'number' && !Number.isFinite(value)) return 'numbers that can be kept';
    if (typeof value !== 'object' || value === null) continue;
    if (Object.keys(value).some((key) => unstorable.test(key))) return 'names without NUL characters and broken surrogates';
    for (const inner of Object.values(value)) left.push({ value: inner, depth: depth + 1 });
  }
  return undefined;
}
