import { allergen, certainty, role, unit } from '@bakehouse/kernel';
import { describe, expect, it } from '@jest/globals';
import * as z from 'zod';
import { kinds } from './kinds.js';
import { concernText, official, phrase, phraseGroups, phraseKeys } from './phrases.js';
import { collections } from './rows/collections.js';

/** The lists of values in a schema, wherever they stand in it. */
function listsOf(schema: unknown, seen = new Set<unknown>()): string[][] {
  if (typeof schema !== 'object' || schema === null || seen.has(schema)) return [];
  seen.add(schema);
  if (schema instanceof z.ZodEnum) return [schema.options.map(String)];
  if (schema instanceof z.ZodObject) return Object.values(schema.shape).flatMap((of) => listsOf(of, seen));
  if (schema instanceof z.ZodArray) return listsOf(schema.element, seen);
  if (schema instanceof z.ZodUnion) return schema.options.flatMap((of) => listsOf(of, seen));
  if (schema instanceof z.ZodNullable || schema instanceof z.ZodOptional) return listsOf(schema.unwrap(), seen);
  return [];
}
const isUnits = (list: string[]): boolean => list.every((value) => unit.safeParse(value).success);
const lists = [
  ...Object.entries(collections).flatMap(([name, { row }]) => listsOf(row).map((list): [string, string[]] => [name, list])),
  ...kinds.flatMap((kind) => listsOf(kind.payload).map((list): [string, string[]] => [kind.name, list])),
].filter(([, list]) => !isUnits(list));
const groups = Object.values(phraseGroups).map((group) => Object.keys(group));

describe('what speaks against food', () => {
  it('goes on in the same sentence, whether or not somebody ended what they typed with a full stop', () => {
    for (const what of ['the mill rang', 'the mill rang.', 'the mill rang. '])
      expect(concernText({ type: 'held', what, part: null })).toMatch(/: the mill rang$/);
  });
});

describe('phrases', () => {
  it('the schemas are read: lists are found in rows and payloads, in arrays and nullable fields', () => {
    const all = lists.map(([, list]) => list.join());
    expect(all).toEqual(
      expect.arrayContaining([
        'within,outside,unsure,not-believable,no-limit',
        allergen.options.join(),
        'ccp,oprp,process-check',
        'slow,fast',
      ]),
    );
  });

  it.each(lists)('%s: every value of %j is in a group of phrases', (_where, list) => {
    expect(groups.filter((group) => list.every((value) => group.includes(value)))).not.toEqual([]);
  });

  it('people’s roles and how sure a time is are in their groups', () => {
    expect(Object.keys(phraseGroups.role)).toEqual(role.options);
    expect(Object.keys(phraseGroups.precision)).toEqual(certainty.options);
  });

  it.each(kinds.map((k) => [k.name, k.phrase]))('%s is called on a screen what it calls itself', (name, plain) => {
    expect(phrase(`kind.${name}`)).toBe(plain);
    expect(official(`kind.${name}`)).not.toBe(name);
  });

  it('a class means on paper what it means at the table', () => {
    expect([phrase('class.ccp'), official('class.ccp')]).toEqual(['critical', 'Critical control point (CCP)']);
    expect([phrase('verdict.unsure'), phrase('verdict.outside'), phrase('verdict.within')]).toEqual([
      'too close to call: probe again',
      'outside',
      'within the limit',
    ]);
  });

  it('within one group no two values read the same, on a screen or on paper', () => {
    for (const group of Object.values(phraseGroups)) {
      const of = Object.values(group);
      expect(new Set(of.map((w) => w.plain)).size).toBe(of.length);
      expect(new Set(of.map((w) => w.official)).size).toBe(of.length);
    }
  });

  it('nothing is said in code words, and nothing is empty', () => {
    for (const key of phraseKeys) {
      const [plain, paper] = [phrase(key as `kind.${string}`), official(key as `kind.${string}`)]; // a key from the list, of whichever group
      expect(plain.trim()).toBe(plain);
      expect(plain).not.toBe('');
      expect(paper).toMatch(/^\p{Lu}|^pH/u);
    }
  });

  it('a kind that this device does not know yet is spelt out', () => {
    expect(phrase('kind.lot-thawed')).toBe('lot thawed');
  });
});
