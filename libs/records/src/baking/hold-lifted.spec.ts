import { describe, expect, it } from '@jest/globals';
import { night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

describe('a hold', () => {
  const held = () => {
    const n = oneBatch();
    const lot = n.countOut().id;
    return {
      ...n,
      lot,
      hold: n.book.record('hold-placed', { lot, deviation: null }, { at: night('05:05'), words: { because: 'smells' } }).id,
    };
  };

  it('says what is held and why, and is lifted once, with the reason', () => {
    const { book, lot, hold } = held();
    expect(book.get('hold', hold)).toMatchObject({ lot, because: 'smells' });
    expect(book.refusal('hold-lifted', { hold }, { at: night('05:10') })).toMatchObject({ field: 'words.why' });
    const { id } = book.record('hold-lifted', { hold }, { at: night('05:10'), words: { why: 'tasted' } });
    expect(book.get('holdLifted', id)).toMatchObject({ hold, lot });
    expect(book.refusal('hold-lifted', { hold }, { at: night('05:11'), words: { why: 'again' } }).problem).toBe('already-lifted');
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it.each([
    ['hold-placed', { lot: uuid(0xfff), deviation: null }, 'unknown-lot'],
    ['hold-lifted', { hold: uuid(0xfff) }, 'unknown-hold'],
  ] as const)('%s is refused for what is not there', (kind, payload, problem) => {
    expect(held().book.refusal(kind, payload, { at: night('05:10') }).problem).toBe(problem);
  });

  it('is lifted, not moved to another lot by a correction', () => {
    const { book, run, hold } = held();
    expect(
      book.refusal('hold-placed', { lot: run, deviation: null }, { at: night('05:05'), corrects: hold, words: { reason: 'x' } }),
    ).toMatchObject({ field: 'payload.lot' });
  });

  it('names a deviation that is there', () => {
    const { book, lot } = held();
    expect(book.refusal('hold-placed', { lot, deviation: uuid(0xfff) }, { at: night('05:10') }).problem).toBe('unknown-deviation');
  });
});
