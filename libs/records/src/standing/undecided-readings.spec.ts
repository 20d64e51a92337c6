import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { concernsOf, rowsBehind, snapshotOf, workingSetOf, type PayloadFor, type Snapshot } from '@bakehouse/records';
import { celsius, lead, night, points } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const [p1, p2] = [uuid(0xf01), uuid(0xf02)];
const since = '2026-01-01T00:00:00.000Z';

/** One batch of two loads; the first is read by hand as always, the second with a thermometer of the test's choice. */
function baked() {
  const n = oneBatch();
  n.book.given('instrument', p1, { name: 'P1', type: 'probe', halfWidthMilli: 500, unit: 'degC', since });
  n.book.given('instrument', p2, { name: 'P2', type: 'probe', halfWidthMilli: 500, unit: 'degC', since });
  const { id: batch } = n.countOut();
  n.core(n.loads[0], '95.1');
  const read = (figure = '95.1', time = '04:45', instrument: string | null = p1, subject: string = n.loads[1]) =>
    n.book.record(
      'reading-taken',
      {
        subjectType: 'load',
        subject,
        point: points.tinCore,
        measured: 'core',
        parameter: 'core temperature',
        instrument,
        value: celsius(figure),
        yes: null,
        seconds: null,
      },
      { at: night(time) },
    );
  const check = (shown: string, time: string, instrument = p1) => {
    const payload: PayloadFor<'instrument-checked'> = {
      instrument,
      way: 'ice',
      shown: celsius(shown),
      at: { pressurePascal: null, altitudeMetres: null },
      tolerance: null,
    };
    return n.book.record('instrument-checked', payload, { at: night(time) }).id;
  };
  const out = (time: string, instrument = p1) => n.book.record('instrument-out-of-use', { instrument }, { at: night(time) }).id;
  const types = () => (concernsOf(workingSetOf(n.book.snapshot()), [batch]).get(batch) ?? []).map((r) => r.concern.type);
  const exception = () =>
    n.book.record('released-by-exception', { batch }, { at: night('06:00'), person: lead, words: { why: 'colour and time are right' } });
  return { ...n, batch, read, check, out, types, exception };
}
type Baked = ReturnType<typeof baked>;
const probeFailed = 'nothing open; there is: a reading is to be confirmed: core temperature: P1 failed its check';
const wentOut = 'nothing open; there is: a reading is to be confirmed: core temperature: the instrument was taken out of use';

describe('a critical reading with a thermometer that cannot be trusted', () => {
  it.each<[string, string | null, (b: Baked) => void]>([
    ['failed later', probeFailed, (b) => [b.check('0.2', '04:00'), b.read(), b.check('2.6', '05:00')]],
    ['failed later, and the reading came in after that', probeFailed, (b) => [b.check('2.6', '05:00'), b.check('0.2', '04:00'), b.read()]],
    ['failed, was never good before', probeFailed, (b) => [b.read(), b.check('2.6', '05:00')]],
    ['failed before, and was good after', probeFailed, (b) => [b.check('2.6', '04:00'), b.read(), b.check('0.1', '05:00')]],
    ['failed at the same minute', probeFailed, (b) => [b.check('2.6', '04:45'), b.check('0.1', '04:45'), b.read()]],
    ['failed and was good again before it was used', null, (b) => [b.check('2.6', '04:00'), b.check('0.1', '04:30'), b.read()]],
    ['was good after it was used, and failed later', null, (b) => [b.read(), b.check('0.1', '04:50'), b.check('2.6', '05:00')]],
    ['was good', null, (b) => [b.check('0.1', '04:00'), b.read(), b.check('0.1', '05:00')]],
    ['failed, which was another one', null, (b) => [b.read(), b.check('2.6', '05:00', p2)]],
    ['was out of use', wentOut, (b) => [b.out('04:00'), b.read()]],
    ['was taken out of use, unchecked since', wentOut, (b) => [b.check('0.1', '04:00'), b.read(), b.out('05:00')]],
    ['was found good before it was taken out of use', null, (b) => [b.read(), b.check('0.1', '05:00'), b.out('05:01')]],
    ['failed, and the core was read again with another', null, (b) => [b.read(), b.check('2.6', '05:00'), b.read('95', '05:05', p2)]],
    ['failed, and the core was read again with it', probeFailed, (b) => [b.read(), b.check('2.6', '05:00'), b.read('95', '05:05')]],
  ])('that %s: %s', (_case, open, before) => {
    const b = baked();
    before(b);
    if (open === null) b.release(b.batch);
    else expect(b.refused(b.batch)).toMatchObject({ problem: 'not-releasable', acceptable: expect.stringContaining(open) });
  });

  it('says which failed and when, on the wall of the site', () => {
    const b = baked();
    b.read();
    b.check('2.6', '05:00');
    expect(b.refused(b.batch).acceptable).toBe(`${probeFailed}, 25 Nov 2026 05:00`);
  });

  it('answers no deviation: nothing is known to be within again', () => {
    const b = baked();
    b.read('90', '04:30', null);
    const deviation = b.book.all('deviation')[0]?.id ?? '';
    b.book.record('corrective-action-taken', { deviation, type: 'back-in-the-oven' }, { at: night('04:32') });
    b.read('95.1', '04:45');
    expect(b.types()).toEqual([]);
    b.check('2.6', '05:00');
    expect(b.types()).toEqual(['weigh-again', 'open-deviation']);
  });

  it('is found after release, and ended by a signed exception for that batch or a decision about the food', () => {
    const b = baked();
    b.read();
    b.release(b.batch);
    const failed = b.check('2.6', '05:20');
    expect(b.types()).toEqual(['weigh-again']);
    const closing = { deviation: b.book.all('deviation')[0]?.id ?? '', staysOnHold: [] };
    b.book.record('deviation-closed', closing, { at: night('05:30'), person: lead });
    expect(b.types()).toEqual(['weigh-again']);
    b.exception();
    expect(b.types()).toEqual([]);
    expect(b.book.all('release').at(-1)?.findings).toMatchObject([{ code: 'weigh-again', subject: b.loads[1] }]);
    const other = baked();
    other.read();
    other.check('2.6', '05:20');
    const deviation = other.book.all('deviation')[0]?.id ?? '';
    const decision: PayloadFor<'disposition-decided'> = {
      deviation,
      lot: other.batch,
      disposition: 'accepted-for-use',
      covers: 'this-alone',
      concerns: [],
      quantity: null,
    };
    other.book.record('disposition-decided', decision, { at: night('05:40'), person: lead });
    expect(other.types()).toEqual([]);
    expect(failed).not.toEqual(deviation);
  });

  it('ends where the failed check was a slip that somebody corrected', () => {
    const b = baked();
    b.read();
    const failed = b.check('2.6', '05:00');
    const good: PayloadFor<'instrument-checked'> = {
      instrument: p1,
      way: 'ice',
      shown: celsius('0.26'),
      at: { pressurePascal: null, altitudeMetres: null },
      tolerance: null,
    };
    b.book.record('instrument-checked', good, { at: night('05:00'), corrects: failed, words: { reason: 'the point' } });
    b.release(b.batch);
    expect(b.types()).toEqual([]);
  });

  it('is the same whatever order the records came in, and for a device that has only the rows behind', () => {
    const steps: readonly [string, (b: Baked) => unknown][] = [
      ['good', (b) => b.check('0.1', '04:00')],
      ['read', (b) => b.read()],
      ['bad', (b) => b.check('2.6', '04:50')],
      ['good again', (b) => b.check('0.3', '05:00')],
      ['read again', (b) => b.read('95', '04:55', p1, b.loads[0])],
      ['read later', (b) => b.read('95', '05:05', p2, b.loads[0])],
      ['out', (b) => b.out('05:06', p2)],
    ];
    const told = (of: Snapshot, batch: string) =>
      (concernsOf(workingSetOf(of), [batch]).get(batch) ?? []).map((r) => ({ ...r.concern, id: '', subject: '' }));
    const subsets = fc.shuffledSubarray([...steps], { minLength: 1 });
    fc.assert(
      fc.property(subsets, (some) => {
        const [one, other] = [baked(), baked()];
        for (const [, step] of some) step(one);
        for (const [, step] of [...some].sort(([a], [c]) => (a < c ? -1 : 1))) step(other);
        const [a, c] = [one.book.snapshot(), other.book.snapshot()];
        expect(told(a, one.batch)).toEqual(told(c, other.batch));
        const lots = a.lot.map((l) => l.id);
        const reached = new Set(concernsOf(workingSetOf(a), lots).keys());
        const behind = snapshotOf({ flow: a.flow, ...rowsBehind(workingSetOf(a), lots, reached) });
        expect(told(behind, one.batch)).toEqual(told(a, one.batch));
      }),
      { numRuns: 25 },
    );
  });
});

describe('a critical reading that is too close to call', () => {
  const close = 'nothing open; there is: probe again: core temperature: too close to call';

  it('keeps the batch until a later one is clear, though the plan did not ask for this load', () => {
    const b = baked();
    const core = b.book.get('controlPoint', points.tinCore);
    if (!core) throw new Error('no control point');
    b.book.given('controlPoint', points.tinCore, { ...core, content: { ...core.content, frequency: 'first-load-of-day' } });
    b.read('94.3');
    expect(b.refused(b.batch).acceptable).toBe(close);
    b.read('94.9', '04:50');
    b.release(b.batch);
  });

  it('is found after release, and ended by a signed exception', () => {
    const b = baked();
    b.read();
    b.release(b.batch);
    b.read('94.3', '05:15');
    expect(b.types()).toEqual(['unsettled']);
    b.exception();
    expect(b.types()).toEqual([]);
  });

  it('holds nothing where the plan lets nothing hold', () => {
    const b = baked();
    const core = b.book.get('controlPoint', points.tinCore);
    if (!core) throw new Error('no control point');
    b.book.given('controlPoint', points.tinCore, {
      ...core,
      content: { ...core.content, ifOutside: 'correct', ifNotMonitored: 'record' },
    });
    b.read('94.3');
    b.release(b.batch);
  });
});
