import { newEnvelope } from '@bakehouse/kernel';
import { kinds } from '@bakehouse/records';
import type { OpenAPIObject } from '@nestjs/swagger';
import { jsonSchemaOf } from '../http/index.js';

const doors = { '/api/v1/sites/{site}/entries': 'site', '/api/v1/organisation/entries': 'organisation' } as const;
const exampleIds = { id: '0190a6d0-7b3c-7000-8000-00000000ab01', salt: '000102030405060708090a0b0c0d0e0f' };

/** Describes what goes through the doors: a named component for each kind, told apart by `kind`, with an example of each. */
export function describeEntries(document: OpenAPIObject): void {
  const schemas = ((document.components ??= {}).schemas ??= {});
  for (const kind of kinds) {
    schemas[componentOf(kind.name)] = { ...jsonSchemaOf(kind.schema, 'input'), examples: [exampleOf(kind)], ...rulesOf(kind) };
  }
  for (const [path, book] of Object.entries(doors)) {
    const operation = document.paths[path]?.post;
    if (!operation) throw new Error(`there is no door at ${path}`);
    const through = kinds.filter((k) => k.book === book || k.book === 'either');
    const items = {
      oneOf: through.map((k) => ({ $ref: ref(k.name) })),
      discriminator: { propertyName: 'kind', mapping: Object.fromEntries(through.map((k) => [k.name, ref(k.name)])) },
    };
    const examples = Object.fromEntries(through.map((k) => [k.name, { summary: k.phrase, value: [exampleOf(k)] }]));
    operation.requestBody = {
      required: true,
      content: { 'application/json': { schema: { type: 'array', minItems: 1, maxItems: 200, items }, examples } },
    };
  }
}

/** What the schema does not tell of a kind, for programs and in a sentence. */
function rulesOf({ book, type, offline, permission, signed, words = [] }: (typeof kinds)[number]): object {
  const free = ['reason', ...words];
  const says = [
    type === 'fact' ? 'A fact: it is not refused for being bad news.' : 'A decision: it is judged against the present and may be refused.',
    `For people who hold ${permission}.`,
    signed === null ? 'Not signed.' : `Signed with the PIN; the signature means: ${signed}`,
    `Free words: ${free.join(', ')}.`,
    offline ? 'A tablet may record it without a network.' : 'Only with a network.',
  ];
  return { 'x-entry': { book, type, offline, permission, signed, words: free, says: says.join(' ') } };
}

const componentOf = (kind: string): string => `Entry.${kind}`;
const ref = (kind: string): string => `#/components/schemas/${componentOf(kind)}`;
function exampleOf(kind: (typeof kinds)[number]): object {
  const word = kind.words?.[0];
  return newEnvelope(
    {
      id: exampleIds.id,
      kind: kind.name,
      version: kind.version,
      payload: kind.examples[0],
      at: '2026-11-25T05:12:00+00:00',
      doneBy: null,
      device: { id: null, seq: 1, clockErrorMs: null },
      words: word === undefined ? {} : { [word]: 'in a few words' },
    },
    () => exampleIds.salt,
  );
}
