import { describe, expect, it } from '@jest/globals';
import { delivered, g, lead, materials, night, places } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { lot, withFlour } from '../../../../test/fixtures/with-flour.js';

const out = { customer: null, unattended: false, until: null };
const added = { material: materials.flour, lot, quantity: g('0'), how: 'weighed' as const };

describe('an amount of nothing', () => {
  it('is no delivery, no use, no departure, no return, no part that is decided about and no piece', () => {
    const { book, make, weigh, line: flour } = withFlour();
    weigh([flour()]);
    const runs = [{ run: uuid(0xe10), product: materials.tin, heads: null, pieces: 3, scaling: g('600') }];
    book.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: night('02:08') });
    const deviation = book.record(
      'deviation-reported',
      { subjectType: 'lot', subject: lot, class: 'ccp', holds: true },
      { at: night('02:10'), words: { what: 'glass' } },
    ).id;
    const at = { at: night('03:00') };
    const none = runs.map((one) => ({ ...one, run: uuid(0xe11), scaling: g('0') }));
    const line = delivered(uuid(0xe02), materials.flour, { quantity: g('0') });
    expect(
      [
        book.refusal('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [line] }, at),
        book.refusal('added-on', { targetType: 'run', target: uuid(0xe10), afterOven: false, lines: [added] }, at),
        book.refusal(
          'vessel-topped-up',
          { vessel: places.tub, material: materials.flour, kept: null, keptHow: 'estimated', added: [added] },
          at,
        ),
        book.refusal('sent-out', { ...out, channel: 'waste', lines: [{ lots: [lot], quantity: g('0'), how: 'weighed' }] }, at),
        book.refusal(
          'goods-returned',
          { lot, departure: null, customer: null, quantity: g('0'), how: 'weighed', disposition: 'waste' },
          at,
        ),
        book.refusal(
          'disposition-decided',
          { deviation, lot, disposition: 'destroyed', covers: 'this-alone', concerns: [], quantity: g('0') },
          { ...at, person: lead },
        ),
        book.refusal('divided', { make, quantity: null, oldDough: null, scrap: null, runs: none }, at),
      ].map(({ field }) => field),
    ).toEqual([
      'payload.lines.0.quantity',
      'payload.lines.0.quantity',
      'payload.added.0.quantity',
      'payload.lines.0.quantity',
      'payload.quantity',
      'payload.quantity',
      'payload.runs.0.scaling',
    ]);
  });

  it('is what was left, what was kept and what was counted', () => {
    const { book } = withFlour();
    const at = { at: night('03:00') };
    book.record('lot-counted', { lot, place: null, quantity: g('0') }, at);
    book.record('lot-emptied', { station: places.mixer, lot, left: g('0') }, at);
  });
});
