import { describe, expect, it } from '@jest/globals';
import { concernsOf, workingSetOf } from '@bakehouse/records';
import { bakehouse, delivered, g, lead, materials, night, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

const lot = uuid(0xe01);
function withLot() {
  const book = bakehouse();
  book.record(
    'delivery-received',
    { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(lot, materials.flour)] },
    { at: night('01:00') },
  );
  const use = () => {
    const make = book.record(
      'make-begun',
      { formulaVersion: whiteVersion, station: null, plan: null, bakeDay: '2026-11-25', plannedMg: null },
      { at: night('02:00') },
    ).id;
    book.record(
      'weighed-in',
      { make, lines: [{ material: materials.flour, lot, quantity: g('2000'), how: 'weighed', type: 'ingredient' }] },
      { at: night('02:05') },
    );
    return make;
  };
  return { book, use };
}

describe('deciding on goods', () => {
  it('needs the condition in words, and keeps it', () => {
    const { book } = withLot();
    expect(book.refusal('receipt-decided', { lot, decision: 'accepted-with-condition' }, { at: night('03:00') })).toMatchObject({
      field: 'words.condition',
    });
    book.record(
      'receipt-decided',
      { lot, decision: 'accepted-with-condition' },
      { at: night('03:00'), words: { condition: 'today only' } },
    );
    expect(book.all('receiptDecision').map((d) => [d.decision, d.condition])).toEqual([['accepted-with-condition', 'today only']]);
  });

  it.each([
    ['receipt-decided', { lot, decision: 'refused' }, 'refused-lot-used'],
    ['hold-placed', { lot, deviation: null }, 'held-lot-used'],
  ] as const)('by %s after it was used tells every make that it went into', (kind, payload, type) => {
    const { book, use } = withLot();
    const makes = [use(), use()];
    book.record(kind, payload, { at: night('07:40') });
    expect(
      book
        .all('deviation')
        .map((d) => [d.subjectType, d.subject, d.type, d.holds])
        .sort(),
    ).toEqual(makes.map((m) => ['make', m, type, false]).sort());
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('by refusing stands: the goods are accepted after all by a signed decision alone, with its reason', () => {
    const { book, use } = withLot();
    book.record('receipt-decided', { lot, decision: 'refused' }, { at: night('01:30') });
    const make = use();
    const types = (of: string) => (concernsOf(workingSetOf(book.snapshot()), [of]).get(of) ?? []).map((r) => r.concern.type);
    for (const decision of ['accepted', 'accepted-with-condition'] as const)
      expect(book.refusal('receipt-decided', { lot, decision }, { at: night('03:00'), words: { condition: 'today only' } })).toMatchObject({
        problem: 'refusal-stands',
        field: 'payload.decision',
      });
    const accepted = { lot, decision: 'accepted', covers: 'this-alone' } as const;
    expect(book.refusal('refused-goods-accepted', accepted, { at: night('03:00'), person: lead })).toMatchObject({ field: 'words.why' });
    const why = { why: 'the pack is whole' };
    book.record('refused-goods-accepted', accepted, { at: night('03:00'), person: lead, words: why });
    expect([types(lot), types(make)]).toEqual([[], ['refused']]);
    expect(book.refusal('refused-goods-accepted', accepted, { at: night('03:05'), words: why }).problem).toBe('unacceptable-value');
    expect(book.all('receiptDecision').map((d) => d.decision)).toEqual(['refused', 'accepted']);
    book.record('receipt-decided', { lot, decision: 'refused' }, { at: night('03:10') });
    expect(types(lot)).toEqual(['refused']);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('by accepting refused goods with what was made of them ends it there too', () => {
    const { book, use } = withLot();
    book.record('receipt-decided', { lot, decision: 'refused' }, { at: night('01:30') });
    const make = use();
    book.record(
      'refused-goods-accepted',
      { lot, decision: 'accepted', covers: 'what-came-of-it' },
      { at: night('03:00'), person: lead, words: { why: 'the pack is whole' } },
    );
    expect(concernsOf(workingSetOf(book.snapshot()), [lot, make]).size).toBe(0);
  });

  it('by a slip is corrected by who typed it, as long as nothing was used, and for that lot', () => {
    const { book, use } = withLot();
    const refused = book.record('receipt-decided', { lot, decision: 'refused' }, { at: night('01:30') }).id;
    const again = { at: night('01:30'), corrects: refused, words: { reason: 'the wrong line' } };
    expect(book.refusal('receipt-decided', { lot, decision: 'accepted' }, { ...again, person: lead }).problem).toBe('refusal-stands');
    book.record('receipt-decided', { lot, decision: 'accepted' }, again);
    book.record('receipt-decided', { lot, decision: 'refused' }, again);
    use();
    expect(book.refusal('receipt-decided', { lot, decision: 'accepted' }, again).problem).toBe('refusal-stands');
    const other = uuid(0xe02);
    book.record(
      'delivery-received',
      { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(other, materials.flour)] },
      { at: night('01:00') },
    );
    expect(book.refusal('receipt-decided', { lot: other, decision: 'refused' }, again)).toMatchObject({ field: 'payload.lot' });
  });

  it('tells nobody where it is accepted', () => {
    const { book, use } = withLot();
    use();
    book.record('receipt-decided', { lot, decision: 'accepted' }, { at: night('07:40') });
    expect(book.all('deviation')).toEqual([]);
  });

  it('is for goods that came in', () => {
    const { book, use } = withLot();
    expect(book.refusal('receipt-decided', { lot: use(), decision: 'refused' }, { at: night('03:00') }).problem).toBe('unacceptable-value');
    expect(book.refusal('receipt-decided', { lot: uuid(0xfff), decision: 'refused' }, { at: night('03:00') }).problem).toBe('unknown-lot');
  });
});
