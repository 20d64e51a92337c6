import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from '@jest/globals';
import { envelope } from '@bakehouse/kernel';
import { kinds, projectionVersion, type AnyKind } from '@bakehouse/records';
import * as z from 'zod';
import { contentBytes, inputOf, sha256 } from '../../apps/api/src/platform/ledger/content.js';
import { contentOf, readContent, readStored } from '../../apps/api/src/platform/ledger/known.js';
import { GoldenHouse } from '../support/golden-house.js';
import type { Sample } from '../support/every-kind.js';

/**
 * The hashed bytes of one entry of every kind and version, as they were when it was first written, with the outcome that was decided in the small
 * house of the fixtures. They must stay readable and give the same hashes for ever: a difference here is a broken ledger, not a test to bring up to
 * date. A new kind or version adds a file, written once by running with GOLDEN=write.
 *
 * Beside them stand the rows that these bytes give, under the version of the projections that gives them. A difference there means that rows which
 * stand in databases are no longer what the program would make: raise `projectionVersion` and run with GOLDEN=write.
 */
const folder = path.resolve(import.meta.dirname, 'golden');
const writing = process.env['GOLDEN'] === 'write';
const words = { salt: '000102030405060708090a0b0c0d0e0f', text: 'Crème brûlée, 2 × 6 – „gut“ 🥐' };

const golden = z.strictObject({ bytes: z.string(), inputHash: z.string(), leaf: z.string() });
type Golden = z.infer<typeof golden>;
const rowsFile = `rows.v${projectionVersion}.json`;
const rowsKept = z.record(z.string(), z.array(z.unknown()));

const leaf = (bytes: Uint8Array): string => sha256(Uint8Array.of(0), bytes).toString('hex');
const parsed = (file: string): unknown => JSON.parse(readFileSync(path.join(folder, file), 'utf8'));
const there = (at: string): string[] => readdirSync(path.join(folder, at)).sort();
const write = (file: string, content: unknown): void => writeFileSync(path.join(folder, file), `${JSON.stringify(content, null, 2)}\n`);

/** The count that a device had in a golden file: what stands in this house may grow without changing the bytes of what was kept. */
function deviceSeqIn(file: string): number {
  if (!there('entries').includes(file)) return 41;
  const { bytes } = golden.parse(parsed(`entries/${file}`));
  return z.object({ input: z.object({ device: z.object({ seq: z.int() }) }) }).parse(JSON.parse(bytes)).input.device.seq;
}

/** What the newest version of a kind would be stored as. */
function made(house: GoldenHouse, kind: AnyKind, sample: Sample): Golden {
  const [key] = kind.words ?? [];
  const told = {
    at: '2026-11-25T05:12:00+00:00',
    id: '0190a6d0-7b3c-7000-8000-00000000000d',
    ...(sample.corrects ? { corrects: sample.corrects } : {}),
    deviceSeq: deviceSeqIn(`${newest(kind)}.json`),
  };
  const said = { ...sample.words, ...(key === undefined ? {} : { [key]: words.text }) };
  const { raw, outcome, stamp } = house.book.wouldStore(kind.name, sample.payload, { ...told, words: said });
  const input = inputOf(envelope.parse(raw));
  if (!input) throw new Error('a sample that cannot be stored');
  const bytes = contentBytes(input, outcome, kind.outcomeVersion, { ...stamp, seq: 41 });
  return { bytes: Buffer.from(bytes).toString('utf8'), inputHash: input.hash.toString('hex'), leaf: leaf(bytes) };
}

/** A kind that is signed since some day has a file from before, too. */
function newest({ name, version, outcomeVersion, signed }: AnyKind): string {
  const first = `${name}.v${version}${outcomeVersion === 1 ? '' : `.o${outcomeVersion}`}`;
  return signed !== null && isUnsigned(`${first}.json`) ? `${first}.signed` : first;
}

function isUnsigned(file: string): boolean {
  if (!there('entries').includes(file)) return false;
  const { bytes } = golden.parse(parsed(`entries/${file}`));
  return z.object({ stamp: z.object({ signature: z.unknown().optional() }) }).parse(JSON.parse(bytes)).stamp.signature === undefined;
}

const fresh = new Map<string, Golden>();

beforeAll(async () => {
  const house = new GoldenHouse();
  const samples = new Map((await house.samples()).map((s) => [s.kind, s]));
  for (const kind of kinds) {
    const sample = samples.get(kind.name);
    if (sample) fresh.set(newest(kind), made(house, kind, sample));
  }
  if (!writing) return;
  const before = new Set(there('entries'));
  for (const [name, content] of fresh) if (!before.has(`${name}.json`)) write(`entries/${name}.json`, content);
  const rows = there('.').includes(rowsFile) ? rowsKept.parse(parsed(rowsFile)) : {};
  for (const name of there('entries').map((f) => path.basename(f, '.json'))) rows[name] ??= [...rowsFrom(name)];
  write(rowsFile, Object.fromEntries(Object.entries(rows).sort(([a], [b]) => (a < b ? -1 : 1))));
});

function rowsFrom(name: string) {
  const { read, outcome, stamp } = readStored(Buffer.from(golden.parse(parsed(`entries/${name}.json`)).bytes, 'utf8'));
  return read.rows(outcome, stamp);
}

describe.each(kinds.map((k) => [k.name, k] as const))('the bytes of %s', (name, kind) => {
  const kept = (): Golden => golden.parse(parsed(`entries/${newest(kind)}.json`));

  it('are those of its golden file: what was sent, what was decided, and the hashes', () => {
    expect(fresh.get(newest(kind))).toEqual(kept());
  });

  it('are read back by their kind, with the word and after the word was withheld', () => {
    const stored = contentOf(Buffer.from(kept().bytes, 'utf8'));
    expect(readContent(stored).payload).toEqual(stored.input['payload']);
    const key = kind.words?.[0];
    if (key !== undefined)
      expect(readContent(stored, { [key]: { text: 'x', salt: '00'.repeat(16) } }).envelope.words?.[key]?.text).toBe('x');
  });

  it('hold no text of a word', () => {
    expect(kept().bytes).not.toContain('brûlée');
  });

  it('of every version there was are kept', () => {
    const versions = there('entries').filter((f) => f.startsWith(`${name}.v`));
    expect(versions).toEqual(
      expect.arrayContaining(Array.from({ length: kind.version }, (_, i) => expect.stringMatching(`^${name}\\.v${i + 1}\\.`))),
    );
  });
});

describe.each(there('entries').map((file) => [path.basename(file, '.json')]))('the golden file %s', (name) => {
  it('has the hashes of its bytes', () => {
    const kept = golden.parse(parsed(`entries/${name}.json`));
    expect(leaf(Buffer.from(kept.bytes, 'utf8'))).toBe(kept.leaf);
    expect(contentOf(Buffer.from(kept.bytes, 'utf8')).input['kind']).toBe(name.split('.')[0]);
  });

  it('gives the rows of this version of the projections', () => {
    expect(JSON.parse(JSON.stringify(rowsFrom(name)))).toEqual(rowsKept.parse(parsed(rowsFile))[name]);
  });
});

describe('the rows of golden files', () => {
  it('are kept for this version of the projections alone', () => {
    expect(there('.').filter((f) => f.startsWith('rows.'))).toEqual([rowsFile]);
  });

  it('tell of every collection that a record of every kind writes to', () => {
    const told = new Set(
      Object.values(rowsKept.parse(parsed(rowsFile))).flatMap((rows) => rows.map((r) => z.looseObject({ in: z.string() }).parse(r).in)),
    );
    expect(told.size).toBeGreaterThan(45);
  });
});
