import { describe, expect, it } from '@jest/globals';
import { lead, night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { openedOn } from '../../../../test/fixtures/recalls.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

describe('release by exception', () => {
  it('keeps why, and what it was signed in spite of', () => {
    const n = oneBatch();
    const { id } = n.countOut();
    n.core(n.loads[0], '95.1');
    expect(n.book.refusal('released-by-exception', { batch: id }, { at: night('05:10'), person: lead })).toMatchObject({
      field: 'words.why',
    });
    n.book.record(
      'released-by-exception',
      { batch: id },
      { at: night('05:10'), person: lead, words: { why: 'colour and bake time are right' } },
    );
    expect(n.book.all('release').map((r) => [r.way, r.findings])).toEqual([
      [
        'by-exception',
        [
          {
            code: 'not-taken',
            subject: n.loads[1],
            what: 'core temperature',
            deviation: null,
            concern: `not-read ${n.loads[1]} tin-core`,
            saw: null,
          },
        ],
      ],
    ]);
    expect(n.book.rebuilt()).toEqual(n.book.snapshot());
  });

  it('never frees what a recall case holds', () => {
    const n = oneBatch();
    const { id } = n.countOut();
    openedOn(n.book, uuid(0xf02), n.make);
    expect(n.book.refusal('released-by-exception', { batch: id }, { at: night('05:10'), words: { why: 'x' } }).problem).toBe(
      'held-by-recall',
    );
    expect(n.book.refusal('released-by-exception', { batch: uuid(0xfff) }, { at: night('05:10') }).problem).toBe('unknown-batch');
  });
});
