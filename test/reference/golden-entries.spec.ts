import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';
import { envelope, type Stamp } from '@bakehouse/kernel';
import { kinds } from '@bakehouse/records';
import { contentBytes, inputOf, sha256 } from '../../apps/api/src/platform/ledger/content.js';
import { contentOf, readContent } from '../../apps/api/src/platform/ledger/known.js';

/**
 * The hashed bytes of one entry of every kind, as they were when the kind was first written. They must stay readable and give the same
 * hashes for ever: a difference here is a broken ledger, not a test to bring up to date. A new kind or version adds a file, written once
 * by running with GOLDEN=write.
 */
const folder = path.resolve(import.meta.dirname, 'golden/entries');
const stamp: Stamp = {
  recordedAt: '2026-11-25T05:12:31.000Z',
  seq: 41,
  organisation: '0190a6d0-7b3c-7000-8000-00000000000a',
  book: '0190a6d0-7b3c-7000-8000-00000000000b',
  person: '0190a6d0-7b3c-7000-8000-00000000000c',
  zone: 'Europe/London',
};

const inputFor = (kind: string, version: number, payload: unknown, word: string | undefined) =>
  envelope.parse({
    id: '0190a6d0-7b3c-7000-8000-00000000000d',
    kind,
    version,
    occurredAt: { at: '2026-11-25T05:12:00+00:00', precision: 'exact' },
    doneBy: null,
    device: { id: '0190a6d0-7b3c-7000-8000-00000000000e', seq: 7, clockErrorMs: -1200 },
    payload,
    ...(word === undefined
      ? {}
      : { words: { [word]: { text: 'Crème brûlée, 2 × 6 – „gut“ 🥐', salt: '000102030405060708090a0b0c0d0e0f' } } }),
  });

interface Golden {
  readonly bytes: string;
  readonly inputHash: string;
  readonly leaf: string;
}
const leaf = (bytes: Uint8Array): string => sha256(Uint8Array.of(0), bytes).toString('hex');

const read = (file: string): Golden | undefined => {
  try {
    return JSON.parse(readFileSync(file, 'utf8')) as Golden;
  } catch {
    return undefined;
  }
};

describe.each(kinds.map((k) => [k.name, k] as const))('the bytes of %s', (name, kind) => {
  const file = path.join(folder, `${name}.v${kind.version}.json`);
  const input = inputOf(inputFor(name, kind.version, kind.examples[0], kind.words?.[0]));
  if (!input) throw new Error('an example that cannot be stored');
  const bytes = contentBytes(input, { example: true }, stamp);
  if (process.env['GOLDEN'] === 'write' && !read(file))
    writeFileSync(
      file,
      `${JSON.stringify({ bytes: Buffer.from(bytes).toString('utf8'), inputHash: input.hash.toString('hex'), leaf: leaf(bytes) }, null, 2)}\n`,
    );
  const golden = read(file);

  it('are those of its golden file', () => {
    expect(golden).toBeDefined();
    expect(Buffer.from(bytes).toString('utf8')).toBe(golden?.bytes);
    expect(input.hash.toString('hex')).toBe(golden?.inputHash);
    expect(leaf(bytes)).toBe(golden?.leaf);
  });

  it('are read back by their kind, with the word and after the word was withheld', () => {
    const stored = contentOf(Buffer.from(golden?.bytes ?? '{}', 'utf8'));
    expect(readContent(stored).payload).toEqual(kind.examples[0]);
    const key = kind.words?.[0];
    if (key !== undefined)
      expect(readContent(stored, { [key]: { text: 'x', salt: '00'.repeat(16) } }).envelope.words?.[key]?.text).toBe('x');
  });

  it('hold no text of a word', () => {
    expect(golden?.bytes).not.toContain('brûlée');
  });
});
