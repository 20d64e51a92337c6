import { describe, expect, it } from '@jest/globals';
import type { Row } from '../base/state.js';
import { specificationsFor } from './specifications-for.js';

const blank: Omit<Row<'specification'>, 'id' | 'supplier' | 'since'> = {
  material: 'almond',
  name: 'ground almond',
  type: 'ingredient',
  countedIn: 'mass',
  densityMgPerMl: null,
  storage: 'ambient',
  lifeDays: null,
  lifeOpenedHours: null,
  contains: [],
  mayContain: [],
  checked: null,
  flour: false,
  animalOrigin: false,
};
const day = (of: number): string => `2026-11-${String(of).padStart(2, '0')}T06:00:00.000Z`;
const said = (id: string, supplier: string | null, since: number): Row<'specification'> => ({ ...blank, id, supplier, since: day(since) });
const all = [
  said('old', 'importer', 1),
  said('then', 'importer', 5),
  said('later', 'importer', 15),
  said('other', 'wholesaler', 4),
  said('other later', 'wholesaler', 16),
  said('anybody', null, 2),
  said('not yet', 'importer', 28),
  { ...said('flour', 'importer', 15), material: 'flour' },
];
const lot = { material: 'almond', specification: 'then', supplier: 'importer' as string | null, at: day(10) };
const found = (of: Partial<typeof lot> = {}, some = all): string[] => specificationsFor({ ...lot, ...of }, some, day(20)).map((s) => s.id);

describe('the specifications that speak of a lot', () => {
  it('are that of its receipt and every later one of its supplier, but not what was over before it came', () => {
    expect(found()).toEqual(['then', 'later']);
  });
  it('are anybody’s besides where its supplier had none when it came', () => {
    expect(
      found(
        { specification: 'anybody' },
        all.filter((s) => s.id !== 'old' && s.id !== 'then'),
      ),
    ).toEqual(['anybody', 'later']);
  });
  it('are every supplier’s where nobody knows whose it is', () => {
    expect(found({ supplier: null })).toEqual(['anybody', 'other', 'then', 'later', 'other later']);
  });
  it('are every supplier’s where neither its own nor a general one was ever accepted', () => {
    expect(
      found(
        { supplier: 'stranger' },
        all.filter((s) => s.supplier !== null),
      ),
    ).toEqual(['other', 'then', 'later', 'other later']);
  });
  it('are the same in whatever order they arrived', () => {
    expect(found({}, all.toReversed())).toEqual(['then', 'later']);
  });
});
