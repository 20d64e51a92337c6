import { newEnvelope, permission } from '@bakehouse/kernel';
import { describe, expect, it } from '@jest/globals';
import { kindOf, kinds } from './kinds.js';
import { collections } from './rows/collections.js';

const salt = '000102030405060708090a0b0c0d0e0f';
const entryOf = (kind: (typeof kinds)[number], payload: unknown) =>
  newEnvelope(
    {
      id: '0190a6d0-7b3c-7000-8000-00000000000d',
      kind: kind.name,
      version: kind.version,
      payload,
      at: '2026-11-25T05:12:00+00:00',
      doneBy: null,
      device: { id: null, seq: 1, clockErrorMs: null },
      words: Object.fromEntries((kind.words ?? []).map((key) => [key, `word ${key}`])),
    },
    () => salt,
  );

describe('the list of kinds', () => {
  it('has each name once, in the form that names keep for ever', () => {
    const names = kinds.map((k) => k.name);
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });
  it('does not know what is not in it', () => {
    for (const raw of [null, 1, 'x', [], {}, { kind: 'no-such-kind' }, { kind: 7 }]) expect(kindOf(raw)).toBeUndefined();
  });
});

describe.each(kinds.map((k) => [k.name, k] as const))('%s', (_name, kind) => {
  const examples = kind.examples.map((example) => entryOf(kind, example));

  it('declares its permission, a phrase and, where it is signed, what the signature means', () => {
    expect(permission.options).toContain(kind.permission);
    expect(kind.phrase.trim()).not.toBe('');
    if (kind.signed !== null) expect(kind.signed.length).toBeGreaterThan(10);
    if (kind.type === 'fact') expect(kind.signed).toBeNull();
    if (kind.signed !== null) expect(kind.offline).toBe(false);
  });

  it('reads its examples, and again what it read', () => {
    for (const example of examples) {
      const read = kind.read(example);
      if (!read.ok) throw new Error(`${read.problem} ${read.field ?? ''} ${read.acceptable ?? ''}`);
      expect(read.payload).toEqual(example.payload);
      expect(kind.readStored(JSON.parse(JSON.stringify(example)))).toMatchObject({ ok: true, payload: example.payload });
    }
  });

  it('names as needs only collections that there are, by fields that they are looked up by', () => {
    for (const example of examples) {
      const read = kind.read(example);
      for (const need of read.ok ? read.needs : []) {
        expect(Object.keys(collections)).toContain(need.in);
        if ('by' in need) expect(collections[need.in].by).toContain(need.by);
      }
    }
  });

  it('refuses unknown fields, words and versions by name', () => {
    const [example] = examples;
    expect(kind.read({ ...example, payload: { ...Object(example?.payload), surprise: 1 } })).toMatchObject({
      ok: false,
      problem: 'malformed',
      field: 'payload.surprise',
    });
    expect(kind.read({ ...example, surprise: 1 })).toMatchObject({ ok: false, field: 'surprise' });
    expect(kind.read({ ...example, words: { surprise: { text: 'x', salt } } })).toMatchObject({ ok: false, field: 'words.surprise' });
    expect(kind.read({ ...example, version: kind.version + 1 })).toMatchObject({ ok: false });
  });
});
