import { describe, expect, it } from '@jest/globals';
import type { SubjectType } from '../rows/control.js';
import type { PointContent } from '../rows/plan-content.js';
import { lead, materials, night, plan, points } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

type Night = ReturnType<typeof oneBatch>;
const read = (n: Night): void => {
  n.loads.forEach((l) => n.core(l, '95.1'));
};
const addPoint = ({ book }: Night, of: Partial<PointContent>): void => {
  const content = book.get('controlPoint', points.tinCore)?.content;
  if (content)
    book.given('controlPoint', uuid(0xb90), { plan, key: 'more', content: { ...content, key: 'more', parameter: 'more', ...of } });
};
const went = (n: Night, subjectType: SubjectType, subject: string, holds = true): void => {
  n.book.record('deviation-reported', { subjectType, subject, class: 'ccp', holds }, { at: night('05:01'), words: { what: 'glass' } });
};

describe('release by rule', () => {
  it.each<[string, (n: Night, batch: string) => void]>([
    ['every core is read and within', read],
    [
      'a deviation holds nothing',
      (n) => {
        read(n);
        went(n, 'run', n.run, false);
      },
    ],
    [
      'it is about another load',
      (n) => {
        read(n);
        went(n, 'load', n.book.record('load-in', n.loadPayload, { at: night('04:50') }).id);
      },
    ],
    [
      'a hold was lifted',
      (n, batch) => {
        read(n);
        const hold = n.book.record('hold-placed', { lot: batch, deviation: null }, { at: night('05:02') }).id;
        n.book.record('hold-lifted', { hold }, { at: night('05:03'), words: { why: 'looked at' } });
      },
    ],
    [
      'a point of another product is not read',
      (n) => {
        read(n);
        addPoint(n, { products: [materials.bap] });
      },
    ],
    [
      'a note is not read',
      (n) => {
        read(n);
        addPoint(n, { class: 'process-check' });
      },
    ],
    [
      'a miss is only recorded',
      (n) => {
        read(n);
        addPoint(n, { ifNotMonitored: 'record' });
      },
    ],
    [
      'the second load of the day needs none',
      (n) => {
        addPoint(n, { frequency: 'first-load-of-day' });
        read(n);
        n.book.record(
          'reading-taken',
          {
            subjectType: 'load',
            subject: n.loads[0],
            point: uuid(0xb90),
            measured: 'core',
            parameter: 'more',
            instrument: null,
            value: { figure: '95', unit: 'degC' },
            yes: null,
            seconds: null,
          },
          { at: night('04:40') },
        );
      },
    ],
    [
      'it was missed, and the lead decided that it is used',
      (n) => {
        n.core(n.loads[0], '95.1');
        n.book.record(
          'reading-not-taken',
          { subjectType: 'load', subject: n.loads[1], point: points.tinCore, answer: 'not-done' },
          { at: night('04:45') },
        );
        n.book.record(
          'disposition-decided',
          {
            deviation: n.book.all('deviation')[0]?.id ?? '',
            lot: null,
            disposition: 'accepted-for-use',
            covers: 'what-came-of-it',
            concerns: [],
            quantity: null,
          },
          { at: night('05:05'), person: lead },
        );
      },
    ],
  ])('lets a batch go where %s', (_case, before) => {
    const n = oneBatch();
    const { id } = n.countOut();
    before(n, id);
    n.release(id);
    expect(n.book.all('release').map((r) => [r.batch, r.way, r.findings])).toEqual([[id, 'by-rule', []]]);
    expect(
      n.book
        .all('releasedSubject')
        .map((s) => s.subject)
        .sort(),
    ).toEqual([id, n.run, n.make, ...n.loads].sort());
    expect(n.book.rebuilt()).toEqual(n.book.snapshot());
  });

  it.each<[string, (n: Night, batch: string) => void, string]>([
    ['no core was read', () => undefined, 'not taken: core temperature; not taken: core temperature'],
    [
      'one load’s core was not read',
      (n) => {
        n.core(n.loads[0], '95.1');
      },
      'not taken: core temperature',
    ],
    [
      'the core has 940 °C',
      (n) => {
        n.core(n.loads[0], '95.1');
        n.core(n.loads[1], '940');
      },
      'probe again: core temperature: not plausible',
    ],
    [
      'a core is outside',
      (n) => {
        n.core(n.loads[0], '95.1');
        n.core(n.loads[1], '90');
      },
      'open deviation: core temperature',
    ],
    [
      'somebody says that it was not done',
      (n) => {
        n.core(n.loads[0], '95.1');
        n.book.record(
          'reading-not-taken',
          { subjectType: 'load', subject: n.loads[1], point: points.tinCore, answer: 'not-known' },
          { at: night('04:45') },
        );
      },
      'open deviation: core temperature',
    ],
    [
      'something is open on the make',
      (n) => {
        read(n);
        went(n, 'make', n.make);
      },
      'open deviation: glass',
    ],
    [
      'something is open on the run',
      (n) => {
        read(n);
        went(n, 'run', n.run);
      },
      'open deviation: glass',
    ],
    [
      'something is open on the batch',
      (n, batch) => {
        read(n);
        went(n, 'batch', batch);
      },
      'open deviation: glass',
    ],
    [
      'the batch is held',
      (n, batch) => {
        read(n);
        n.book.record('hold-placed', { lot: batch, deviation: null }, { at: night('05:02'), words: { because: 'smells' } });
      },
      'on hold: smells',
    ],
    // The run was used before it was held: the deviation about that is there to be answered, and it is the hold that holds.
    [
      'the run is held',
      (n) => {
        read(n);
        n.book.record('hold-placed', { lot: n.run, deviation: null }, { at: night('05:02') });
      },
      'on hold',
    ],
    [
      'the first load of the day was not read',
      (n) => {
        read(n);
        addPoint(n, { frequency: 'first-load-of-day' });
      },
      'not taken: more',
    ],
    [
      'the make was not read',
      (n) => {
        read(n);
        addPoint(n, { frequency: 'each-make', step: 'mix' });
      },
      'not taken: more',
    ],
    [
      'the batch was not read',
      (n) => {
        read(n);
        addPoint(n, { frequency: 'each-batch', step: 'pack' });
      },
      'not taken: more',
    ],
  ])('keeps a batch where %s', (_case, before, open) => {
    const n = oneBatch();
    const { id } = n.countOut();
    before(n, id);
    expect(n.refused(id)).toMatchObject({
      problem: 'not-releasable',
      field: 'payload.batch',
      acceptable: `nothing open; there is: ${open}`,
    });
    expect(n.book.all('release')).toEqual([]);
  });

  it('is not the last word: a core found too low afterwards holds what was released, and what is sent out then is told', () => {
    const n = oneBatch();
    const { id } = n.countOut();
    read(n);
    n.release(id);
    n.core(n.loads[0], '88', '06:00');
    expect(n.book.all('deviation').map((d) => [d.type, d.holds])).toEqual([['found-after-release', true]]);
    const line = { lots: [id], quantity: { figure: '2', unit: 'piece' as const }, how: 'counted' as const };
    const trip = { channel: 'dispatch' as const, customer: null, unattended: false, until: null, lines: [line] };
    n.book.record('sent-out', trip, { at: night('07:00') });
    expect(n.book.all('deviation').map((d) => [d.type, d.subject])).toContainEqual(['held-lot-used', id]);
  });

  it('keeps a batch that no plan speaks for, and one that no load is known of', () => {
    const unplanned = oneBatch({ plan: null });
    expect(unplanned.refused(unplanned.countOut().id).acceptable).toContain('its mix was recorded without a plan');
    const n = oneBatch();
    n.loads.forEach((l) => n.book.record('entry-withdrawn', {}, { at: night('04:55'), corrects: l, words: { reason: 'another day' } }));
    expect(n.refused(n.countOut({ loads: [] }).id).acceptable).toContain('not taken: core temperature');
  });

  it('is refused for a batch that is not there', () => {
    expect(oneBatch().refused(uuid(0xfff)).problem).toBe('unknown-batch');
  });
});
