import { concernsOf, workingSetOf } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { celsius, delivered, g, lead, materials, night, plan, points } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const reason = { words: { reason: 'misread' } };
type Baked = ReturnType<typeof oneBatch>;

function signedOn(n: Baked, batch: string): void {
  n.book.record('released-by-exception', { batch }, { at: night('06:00'), person: lead, words: { why: 'colour and time are right' } });
}
const against = (n: Baked, batch: string): string[] =>
  (concernsOf(workingSetOf(n.book.snapshot()), [batch]).get(batch) ?? []).map((r) => r.concern.type);

/** Flour went into the dough on the day after its use-by date; `dated` corrects that date. */
function flourUsedPast() {
  const n = oneBatch();
  const flour = uuid(0xe5e);
  const [came, at] = [{ supplier: null, noteNumber: null, photo: null, unattended: false }, '2026-11-20T06:00:00Z'];
  const lines = (useBy: string) => [delivered(flour, materials.flour, { useBy })];
  const delivery = n.book.record('delivery-received', { ...came, lines: lines('2026-11-24') }, { at }).id;
  const line = { material: materials.flour, lot: flour, quantity: g('10'), how: 'weighed', type: 'ingredient' } as const;
  n.book.record('weighed-in', { make: n.make, lines: [line] }, { at: night('02:40') });
  const dated = (useBy: string) =>
    n.book.record('delivery-received', { ...came, lines: lines(useBy) }, { at, corrects: delivery, ...reason });
  return { n, dated };
}

describe('an exception', () => {
  /** The first load is outside, or too close to call, and the second within; somebody signs in spite of it. */
  function signedOnCore(figure: string) {
    const n = oneBatch();
    const { id: batch } = n.countOut();
    const reading = n.core(n.loads[0], figure).id;
    n.core(n.loads[1], '97', '04:41');
    const before = against(n, batch);
    signedOn(n, batch);
    const correct = (to: string) => n.core(n.loads[0], to, '04:40', { corrects: reading, ...reason });
    return { n, batch, before, correct };
  }

  it.each([
    ['88', '70', 'open-deviation'],
    ['88', '93', 'open-deviation'],
    ['940', '950', 'unsettled'],
  ])('about a core of %s does not cover %s, which it was corrected to: %s', (signed, corrected, type) => {
    const { n, batch, before, correct } = signedOnCore(signed);
    expect([before, against(n, batch)]).toEqual([[type], []]);
    correct(corrected);
    expect(against(n, batch)).toEqual([type]);
    correct(signed);
    expect(against(n, batch)).toEqual([]);
  });

  it('covers a value that was corrected to within, which is less than was accepted', () => {
    const { n, batch, correct } = signedOnCore('88');
    correct('97');
    expect(against(n, batch)).toEqual([]);
  });

  it('can be signed anew about what was corrected', () => {
    const { n, batch, correct } = signedOnCore('88');
    correct('70');
    signedOn(n, batch);
    expect(against(n, batch)).toEqual([]);
    expect(n.book.rebuilt()).toEqual(n.book.snapshot());
  });

  it('about a use past a use-by date does not cover an earlier date that it was corrected to', () => {
    const { n, dated } = flourUsedPast();
    const { id: batch } = n.countOut();
    n.core(n.loads[0], '97');
    n.core(n.loads[1], '97', '04:41');
    expect(against(n, batch)).toEqual(['used-past-use-by']);
    signedOn(n, batch);
    expect(against(n, batch)).toEqual([]);
    dated('2026-11-10');
    expect(against(n, batch)).toEqual(['used-past-use-by']);
  });
});

describe('an exception about the first load of a day', () => {
  const first = uuid(0xb90);
  /** A batch of the second load, where the core is read at the first load of the day. */
  function later() {
    const n = oneBatch();
    const content = n.book.get('controlPoint', points.tinCore)?.content;
    if (!content) throw new Error('no point');
    n.book.given('controlPoint', points.tinCore, { plan, key: content.key, content: { ...content, class: 'process-check' } });
    n.book.given('controlPoint', first, { plan, key: 'first', content: { ...content, key: 'first', frequency: 'first-load-of-day' } });
    const read = (figure: string, corrects?: string) =>
      n.book.record(
        'reading-taken',
        {
          subjectType: 'load',
          subject: n.loads[0],
          point: first,
          measured: 'core',
          parameter: 'core temperature',
          instrument: null,
          value: celsius(figure),
          yes: null,
          seconds: null,
        },
        { at: night('04:40'), ...(corrects === undefined ? {} : { corrects, ...reason }) },
      ).id;
    return { n, read, batch: n.countOut({ loads: [n.loads[1]], pieces: 10 }).id };
  }

  it('that was outside does not cover what that was corrected to', () => {
    const { n, read, batch } = later();
    const reading = read('88');
    expect(against(n, batch)).toEqual(['first-load-outside']);
    signedOn(n, batch);
    expect(against(n, batch)).toEqual([]);
    read('60', reading);
    expect(against(n, batch)).toEqual(['first-load-outside']);
  });

  it.each([
    ['this parameter', 'core temperature', []],
    ['another', 'oven temperature', ['first-load-not-read']],
  ])('that was not read, from when that was no concern yet, ends the concern of that batch: %s', (_which, what, left) => {
    const { n, read, batch } = later();
    expect(against(n, batch)).toEqual(['first-load-not-read']);
    const found = { code: 'not-taken', subject: n.loads[0], what, deviation: null, concern: null, saw: null } as const;
    n.book.given('release', uuid(0xb91), { batch, way: 'by-exception', rule: 4, findings: [found], at: night('05:30') });
    expect(against(n, batch)).toEqual(left);
    read('60');
    expect(against(n, batch)).toEqual(['first-load-outside']);
  });
});

describe('a disposition', () => {
  const decide = (n: Baked, deviation: string, lot: string | null, covers: 'this-alone' | 'what-came-of-it') =>
    n.book.record(
      'disposition-decided',
      { deviation, lot, disposition: 'accepted-for-use', covers, concerns: [], quantity: null },
      { at: night('06:00'), person: lead },
    );
  const deviationOf = (n: Baked, type: string): string => n.book.all('deviation').find((d) => d.type === type)?.id ?? '';

  it.each([
    ['the load and what came of it', null, 'what-came-of-it'],
    ['the batch alone', 'batch', 'this-alone'],
  ] as const)(
    'about a core that was outside, of %s, does not cover what that is corrected to, unless that is within',
    (_what, of, covers) => {
      const n = oneBatch();
      const { id: batch } = n.countOut();
      const reading = n.core(n.loads[0], '88').id;
      n.core(n.loads[1], '97', '04:41');
      const sign = () => decide(n, deviationOf(n, 'limit'), of === null ? null : batch, covers);
      sign();
      expect(against(n, batch)).toEqual([]);
      const correct = (to: string) => n.core(n.loads[0], to, '04:40', { corrects: reading, ...reason });
      correct('60');
      expect(against(n, batch)).toEqual(['open-deviation']);
      expect(n.refused(batch, '06:10').acceptable).toContain('open deviation: core temperature');
      correct('88');
      expect(against(n, batch)).toEqual([]);
      correct('97');
      expect(against(n, batch)).toEqual([]);
      correct('61');
      sign();
      expect(against(n, batch)).toEqual([]);
      expect(n.book.rebuilt()).toEqual(n.book.snapshot());
    },
  );

  it('covers as it did where it was signed before this was kept', () => {
    const n = oneBatch();
    const { id: batch } = n.countOut();
    const reading = n.core(n.loads[0], '88').id;
    n.core(n.loads[1], '97', '04:41');
    decide(n, deviationOf(n, 'limit'), null, 'what-came-of-it');
    const { id, ...row } = n.book.all('disposition')[0] ?? { id: '' };
    if (!('deviation' in row)) throw new Error('not decided');
    n.book.given('disposition', id, { ...row, saw: [] });
    n.core(n.loads[0], '60', '04:40', { corrects: reading, ...reason });
    expect(against(n, batch)).toEqual([]);
  });

  it('about a failed check does not cover a reading in doubt that is corrected, nor one that it did not know of', () => {
    const n = oneBatch();
    const { id: batch } = n.countOut();
    const probe = uuid(0xf01);
    n.book.given('instrument', probe, { name: 'P1', type: 'probe', halfWidthMilli: 500, unit: 'degC', since: '2026-01-01T00:00:00.000Z' });
    const read = (load: string, figure: string, corrects?: string) =>
      n.book.record(
        'reading-taken',
        {
          subjectType: 'load',
          subject: load,
          point: points.tinCore,
          measured: 'core',
          parameter: 'core temperature',
          instrument: probe,
          value: celsius(figure),
          yes: null,
          seconds: null,
        },
        { at: night('04:40'), ...(corrects === undefined ? {} : { corrects, ...reason }) },
      ).id;
    const reading = read(n.loads[0], '97');
    const second = n.core(n.loads[1], '97', '04:41').id;
    const check = {
      instrument: probe,
      way: 'ice',
      shown: celsius('2.6'),
      at: { pressurePascal: null, altitudeMetres: null },
      tolerance: null,
    } as const;
    n.book.record('instrument-checked', check, { at: night('05:30') });
    expect(against(n, batch)).toEqual(['weigh-again']);
    decide(n, n.book.all('deviation')[0]?.id ?? '', batch, 'this-alone');
    expect(against(n, batch)).toEqual([]);
    read(n.loads[0], '96', reading);
    expect(against(n, batch)).toEqual(['weigh-again']);
    read(n.loads[0], '97', reading);
    expect(against(n, batch)).toEqual([]);
    n.book.record('entry-withdrawn', {}, { corrects: second, ...reason, at: night('06:05') });
    read(n.loads[1], '98');
    expect(against(n, batch)).toEqual(['weigh-again']);
  });

  it('about a use past a use-by date does not cover an earlier date that it was corrected to', () => {
    const { n, dated } = flourUsedPast();
    expect(against(n, n.make)).toEqual(['used-past-use-by']);
    decide(n, deviationOf(n, 'expired-lot-used'), n.make, 'what-came-of-it');
    expect(against(n, n.make)).toEqual([]);
    dated('2026-11-10');
    expect(against(n, n.make)).toEqual(['used-past-use-by']);
  });
});
