import { concernsOf, workingSetOf } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { lead, night } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

type Baked = ReturnType<typeof oneBatch>;
const against = (n: Baked, lot: string): string[] =>
  (concernsOf(workingSetOf(n.book.snapshot()), [lot]).get(lot) ?? []).map((r) => r.concern.type);

/** The design's table of concerns, row *hold by hand*: on a lot, make, load or batch. On a place or a period there is none: a hold names a lot. */
describe('what somebody puts on hold', () => {
  it.each<[string, (n: Baked) => string]>([
    ['a lot that went in', (n) => n.weighLines[0].lot],
    ['a make', (n) => n.make],
    ['what was divided from it', (n) => n.run],
  ])('%s, holds what came of it, until it is lifted', (_what, of) => {
    const n = oneBatch();
    const { id: batch } = n.countOut();
    const words = { words: { because: 'glass' }, person: lead };
    const { id: hold } = n.book.record('hold-placed', { lot: of(n), deviation: null }, { at: night('05:05'), ...words });
    expect([against(n, of(n)), against(n, batch)]).toEqual([['held'], ['held']]);
    n.book.record('hold-lifted', { hold }, { at: night('05:06'), person: lead, words: { why: 'found' } });
    expect(against(n, batch)).toEqual([]);
  });

  it('a load, by a report that holds, holds each batch that was baked in it and no other', () => {
    const n = oneBatch();
    const first = n.countOut({ loads: [n.loads[0]], pieces: 10, code: 'ONE' }).id;
    const second = n.countOut({ loads: [n.loads[1]], pieces: 10, code: 'TWO' }).id;
    const reported = { subjectType: 'load', subject: n.loads[0], class: 'ccp', holds: true } as const;
    n.book.record('deviation-reported', reported, { at: night('05:05'), person: lead, words: { what: 'the oven door broke' } });
    expect([against(n, first), against(n, second)]).toEqual([['open-deviation'], []]);
  });

  it('a place holds nothing by itself: what stood there is to be put on hold by its own name', () => {
    const n = oneBatch();
    const reported = { subjectType: 'place', subject: n.loadPayload.oven, class: 'ccp', holds: true } as const;
    const options = { at: night('05:05'), person: lead, words: { what: 'it leaks' } };
    expect(n.book.refusal('deviation-reported', reported, options)).toMatchObject({
      field: 'payload.holds',
      acceptable: expect.stringContaining('put the food on hold by its name'),
    });
  });
});
