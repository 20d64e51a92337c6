import { describe, expect, it } from '@jest/globals';
import { lead, night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';
import { openedOn } from '../../../../test/fixtures/recalls.js';

const recall = uuid(0xf02);
const instantOf = (time: string): string => new Date(night(time)).toISOString();

describe('that the authority or the public was told', () => {
  it.each([false, true])('is on record beside the case, a practice too (%s)', (practice) => {
    const { book, make } = oneBatch();
    openedOn(book, recall, make, { practice });
    book.record('recall-notified', { recall, to: 'authority', how: 'telephone' }, { at: night('06:10'), person: lead });
    book.record('recall-notified', { recall, to: 'public', how: 'notice-at-shop' }, { at: night('06:40'), person: lead });
    expect(book.all('recallNotified')).toMatchObject([
      { recall, to: 'authority', how: 'telephone', doneBy: lead, at: instantOf('06:10') },
      { recall, to: 'public', how: 'notice-at-shop', doneBy: lead },
    ]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('is recorded of a case alone that there is', () => {
    const { book } = oneBatch();
    const payload = { recall, to: 'authority', how: 'telephone' } as const;
    expect(book.refusal('recall-notified', payload, { at: night('06:10') })).toMatchObject({
      problem: 'unknown-recall',
      field: 'payload.recall',
    });
  });

  it('is corrected, and withdrawn where it was not so', () => {
    const { book, make } = oneBatch();
    openedOn(book, recall, make);
    const { id } = book.record('recall-notified', { recall, to: 'authority', how: 'telephone' }, { at: night('06:10') });
    const words = { reason: 'it was a mail' };
    book.record('recall-notified', { recall, to: 'authority', how: 'e-mail' }, { at: night('06:12'), corrects: id, words });
    expect(book.all('recallNotified')).toMatchObject([{ id, how: 'e-mail', at: instantOf('06:12') }]);
    book.record('entry-withdrawn', {}, { at: night('06:20'), corrects: id, words: { reason: 'another case' } });
    expect(book.all('recallNotified')).toEqual([]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });
});
