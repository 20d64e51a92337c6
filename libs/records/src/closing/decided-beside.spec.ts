import { describe, expect, it } from '@jest/globals';
import { accept, against, cream, iso, kitchen } from '../../../../test/fixtures/past-life-house.js';
import { lead, night } from '../../../../test/fixtures/bakehouse.js';
import { concernsOf } from '../standing/standings.js';
import { workingSetOf } from '../index.js';
import type { PayloadFor } from '../kinds.js';

/** Cream that went into a filling, told to have stood open for too long by a record that came late: the filling is on hold, and no deviation tells of that. */
function toldLate() {
  const k = kitchen();
  const make = k.begun(iso('16:00'));
  k.used(cream, make, iso('16:05'));
  const before = against(k.book, make);
  const opening = k.opened(iso('01:00'));
  const report = (subject: string, at = '17:00'): string =>
    k.book.record(
      'deviation-reported',
      { subjectType: 'make', subject, class: 'oprp', holds: false },
      { at: night(at), words: { what: 'the cream stood open' } },
    ).id;
  const ids = (lot: string) => (concernsOf(workingSetOf(k.book.snapshot()), [lot]).get(lot) ?? []).map((r) => r.concern.id);
  const payload = (deviation: string, concerns: string[], of: Partial<PayloadFor<'disposition-decided'>> = {}) => ({
    ...{ deviation, lot: null, disposition: 'accepted-for-use' as const, covers: 'this-alone' as const, concerns, quantity: null },
    ...of,
  });
  const decide = (...of: Parameters<typeof payload>) =>
    k.book.record('disposition-decided', payload(...of), { at: night('18:00'), person: lead });
  const refused = (...of: Parameters<typeof payload>) =>
    k.book.refusal('disposition-decided', payload(...of), { at: night('18:00'), person: lead });
  return { ...k, make, before, opening, report, ids, payload, decide, refused };
}

describe('a decision about food that names what else holds it', () => {
  it('ends what was worked out of a late record, which a decision about its own deviation alone does not', () => {
    const k = toldLate();
    expect([k.before, against(k.book, k.make), k.book.all('deviation')]).toEqual([[], ['used-past-life'], []]);
    const deviation = k.report(k.make);
    accept(k.book, deviation, 'what-came-of-it', null, '17:30');
    expect(against(k.book, k.make)).toEqual(['used-past-life']);
    k.decide(deviation, k.ids(k.make));
    expect(against(k.book, k.make)).toEqual([]);
  });

  it('covers what came of the food only where it says so, and leaves the lot that it began at as it was', () => {
    const k = toldLate();
    const into = k.begun(iso('17:10'));
    k.used(k.make, into, iso('17:15'));
    expect([k.make, into].map((m) => against(k.book, m))).toEqual([['used-past-life'], ['used-past-life']]);
    const deviation = k.report(k.make);
    k.decide(deviation, k.ids(k.make));
    expect([k.make, into].map((m) => against(k.book, m))).toEqual([[], ['used-past-life']]);
    k.decide(deviation, k.ids(into), { covers: 'what-came-of-it', lot: k.make });
    expect([k.make, into].map((m) => against(k.book, m))).toEqual([[], []]);
  });

  it('may be about one lot that came of it, wherever that began', () => {
    const k = toldLate();
    const into = k.begun(iso('17:10'));
    k.used(k.make, into, iso('17:15'));
    k.decide(k.report(into, '17:30'), k.ids(into));
    expect([k.make, into].map((m) => against(k.book, m))).toEqual([['used-past-life'], []]);
  });

  it('can be corrected, and withdrawn: then it is on hold again', () => {
    const k = toldLate();
    const deviation = k.report(k.make);
    const into = k.begun(iso('17:10'));
    k.used(k.make, into, iso('17:15'));
    const { id } = k.decide(deviation, k.ids(k.make));
    k.book.record('disposition-decided', k.payload(deviation, k.ids(into), { covers: 'what-came-of-it' }), {
      at: night('18:10'),
      person: lead,
      corrects: id,
      words: { reason: 'the tarts as well' },
    });
    expect([k.make, into].map((m) => against(k.book, m))).toEqual([[], []]);
    k.book.record('entry-withdrawn', {}, { at: night('18:20'), person: lead, corrects: id, words: { reason: 'not yet' } });
    expect([k.make, into].map((m) => against(k.book, m))).toEqual([['used-past-life'], ['used-past-life']]);
  });

  it('frees no food that its deviation is not about', () => {
    const k = toldLate();
    const elsewhere = k.begun(iso('16:30'));
    const site = k.book.record(
      'deviation-reported',
      { subjectType: 'site', subject: k.book.all('make')[0]?.site ?? '', class: 'oprp', holds: false },
      { at: night('17:02'), words: { what: 'rain came in' } },
    ).id;
    for (const deviation of [k.report(elsewhere), site])
      expect(k.refused(deviation, k.ids(k.make), { lot: k.make })).toMatchObject({
        problem: 'not-about-this-food',
        field: 'payload.lot',
      });
    expect(against(k.book, k.make)).toEqual(['used-past-life']);
  });

  it('names nothing that does not hold the food, nothing that has an act of its own, and nothing where the food is not used', () => {
    const k = toldLate();
    const deviation = k.report(k.make);
    const other = k.report(k.make, '17:01');
    k.book.record('hold-placed', { lot: k.make, deviation: null }, { at: night('17:20'), words: { because: 'to be sure' } });
    const [late = '', hold = ''] = [k.ids(k.make).find((id) => id.startsWith('used-past-life')), k.book.all('hold')[0]?.id];
    expect(k.ids(k.make)).toEqual(expect.arrayContaining([late, hold]));
    for (const wrong of ['used-past-life nothing', hold, other])
      expect(k.refused(deviation, [late, wrong])).toMatchObject({ problem: 'not-for-this-decision', field: 'payload.concerns.1' });
    expect(k.refused(deviation, [late], { disposition: 'destroyed' })).toMatchObject({
      problem: 'not-for-this-decision',
      field: 'payload.concerns',
    });
    k.decide(deviation, [late]);
    expect(k.ids(k.make)).toEqual([hold]);
  });
});
