import { describe, expect, it } from '@jest/globals';
import { bakehouse, delivered, g, materials, night, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
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
