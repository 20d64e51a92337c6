import { describe, expect, it } from '@jest/globals';
import { nightView } from './night-view.js';
import { g, materials, night, row } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

describe('the sum of what a dough was divided into', () => {
  it('is held against what went in by all that is known now, whatever was known when it was divided', () => {
    const { book, make } = oneBatch();
    const sum = () => nightView(book.snapshot(), { bakeDay: '2026-11-25', at: row('06:00'), zone: 'Europe/London' }).makes[0]?.divided;
    expect(sum()).toMatchObject({ inMg: 19_100_000, runsMg: 18_200_000, differenceMg: 900_000 });
    const salt = { material: materials.salt, lot: null, quantity: g('100'), how: 'weighed' as const, type: 'ingredient' as const };
    const { id } = book.record('weighed-in', { make, lines: [salt] }, { at: night('02:40') });
    expect(sum()).toMatchObject({ inMg: 19_200_000, differenceMg: 1_000_000 });
    const unweighed = [{ ...salt, quantity: null }];
    book.record('weighed-in', { make, lines: unweighed }, { at: night('02:40'), corrects: id, words: { reason: 'nobody weighed it' } });
    expect(sum()).toMatchObject({ inMg: null, differenceMg: null });
  });
});
