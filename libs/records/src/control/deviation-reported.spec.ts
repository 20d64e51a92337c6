import { describe, expect, it } from '@jest/globals';
import { bakehouse, baker, lead, materials, night, delivered } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import type { PayloadFor } from '../kinds.js';

/** A deviation from its report to its close. */
function withTrouble(holds = true) {
  const book = bakehouse();
  const lot = uuid(0xe01);
  book.record(
    'delivery-received',
    { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [delivered(lot, materials.flour)] },
    { at: night('01:00') },
  );
  const deviation = book.record(
    'deviation-reported',
    { subjectType: 'lot', subject: lot, class: 'ccp', holds },
    { at: night('01:10'), words: { what: 'glass beside the sack' } },
  ).id;
  return { book, lot, deviation };
}
const review = { review: 'looked at' };

describe('a reported deviation', () => {
  it('is told in somebody’s words and holds what it is about', () => {
    const { book, deviation, lot } = withTrouble();
    expect(book.get('deviation', deviation)).toMatchObject({
      subject: lot,
      type: 'deviation-reported',
      summary: 'glass beside the sack',
      holds: true,
      doneBy: baker,
    });
    expect(
      book.refusal('deviation-reported', { subjectType: 'lot', subject: lot, class: 'ccp', holds: true }, { at: night('01:11') }),
    ).toMatchObject({ field: 'words.what' });
    expect(
      book.refusal(
        'deviation-reported',
        { subjectType: 'lot', subject: uuid(0xfff), class: 'ccp', holds: true },
        { at: night('01:11'), words: { what: 'x' } },
      ).problem,
    ).toBe('unknown-subject');
  });

  it('is about the whole site where nothing smaller fits', () => {
    expect(
      bakehouse().record(
        'deviation-reported',
        { subjectType: 'site', subject: uuid(3), class: 'process-check', holds: false },
        { at: night('01:11'), words: { what: 'no water' } },
      ).outcome,
    ).toEqual({});
  });

  it('is not closed before a disposition is recorded', () => {
    const { book, deviation } = withTrouble();
    expect(book.refusal('deviation-closed', { deviation, staysOnHold: [] }, { at: night('02:00'), words: review }).problem).toBe(
      'undecided-food',
    );
    book.record(
      'disposition-decided',
      { deviation, lot: null, disposition: 'destroyed', covers: 'this-alone', concerns: [], quantity: { figure: '25', unit: 'kg' } },
      { at: night('02:00') },
    );
    expect(book.all('disposition').map((d) => [d.disposition, d.mg, d.pieces])).toEqual([['destroyed', 25_000_000, null]]);
    expect(book.record('deviation-closed', { deviation, staysOnHold: [] }, { at: night('02:10'), words: review }).outcome).toMatchObject({
      selfReview: true,
    });
    expect(book.refusal('deviation-closed', { deviation, staysOnHold: [] }, { at: night('02:20') }).problem).toBe('already-closed');
  });

  it('is closed at once where it holds nothing, and the record says who reviewed whom', () => {
    const { book, deviation } = withTrouble(false);
    book.record('corrective-action-taken', { deviation, type: 'set-aside' }, { at: night('01:20'), doneBy: lead });
    expect(book.record('deviation-closed', { deviation, staysOnHold: [] }, { at: night('02:10'), person: lead }).outcome).toMatchObject({
      selfReview: true,
    });
    expect(book.all('deviationClosed').map((c) => c.closedBy)).toEqual([lead]);
  });

  it('is not self-review where somebody else looks', () => {
    const { book, deviation } = withTrouble(false);
    expect(book.record('deviation-closed', { deviation, staysOnHold: [] }, { at: night('02:10'), person: lead }).outcome).toMatchObject({
      selfReview: false,
    });
  });

  it('takes what was done, in words where no word of the list fits', () => {
    const { book, deviation, lot } = withTrouble();
    expect(book.refusal('corrective-action-taken', { deviation, type: 'other' }, { at: night('01:20') })).toMatchObject({
      field: 'words.action',
    });
    expect(book.refusal('corrective-action-taken', { deviation: uuid(0xfff), type: 'repaired' }, { at: night('01:20') }).problem).toBe(
      'unknown-deviation',
    );
    book.record('corrective-action-taken', { deviation, type: 'other' }, { at: night('01:20'), words: { action: 'swept the floor' } });
    expect(book.all('correctiveAction').map((a) => [a.subject, a.action, a.doneBy])).toEqual([[lot, 'swept the floor', baker]]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('is refused where it is not known, by a decision and by a closing', () => {
    const deviation = uuid(0xfff);
    const decision: PayloadFor<'disposition-decided'> = {
      deviation,
      lot: null,
      disposition: 'accepted-for-use',
      covers: 'what-came-of-it',
      concerns: [],
      quantity: null,
    };
    const at = { at: night('02:00') };
    expect(bakehouse().refusal('disposition-decided', decision, at).problem).toBe('unknown-deviation');
    expect(bakehouse().refusal('deviation-closed', { deviation, staysOnHold: [] }, at).problem).toBe('unknown-deviation');
  });
});
