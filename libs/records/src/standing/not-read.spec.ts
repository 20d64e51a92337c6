import fc from 'fast-check';
import { describe, expect, it } from '@jest/globals';
import { concernsOf, rowsBehind, snapshotOf, stillToRead, troubleWith, workingSetOf, type Snapshot } from '@bakehouse/records';
import { g, lead, materials, night, places, plan, points, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const reason = { words: { reason: 'of another load' } };
const signed = { person: lead, words: { why: 'colour and time are right' } };

/** A batch of two loads whose cores must be read; some of it goes into another dough as crumb, which is baked and read as it must. */
function night1() {
  const n = oneBatch();
  const first = n.countOut().id;
  const types = (lot: string, of: Snapshot = n.book.snapshot()) =>
    (concernsOf(workingSetOf(of), [lot]).get(lot) ?? []).map((r) => `${r.concern.type}: ${r.concern.what}`);
  const crumb = (time = '05:30') => {
    const begun = { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: '2026-11-25', plannedMg: null };
    const make = n.book.record('make-begun', begun, { at: night(time) }).id;
    const line = { material: materials.tin, lot: first, quantity: g('900'), how: 'weighed', type: 'rework' } as const;
    n.book.record('weighed-in', { make, lines: [...n.weighLines, line] }, { at: night(time) });
    return make;
  };
  const second = (make: string) => {
    const run = uuid(0xe77);
    const runs = [{ run, product: materials.tin, heads: null, pieces: 10, scaling: g('910') }];
    n.book.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: night('05:40') });
    const load = n.book.record('load-in', { ...n.loadPayload, lines: [{ run, pieces: 10 }] }, { at: night('05:45') }).id;
    n.core(load, '97', '06:10');
    return n.book.record('batch-counted-out', { ...n.counted, run, loads: [load], pieces: 10, code: 'TIN-2' }, { at: night('06:15') }).id;
  };
  const exception = (batch: string, time = '06:30') => n.book.record('released-by-exception', { batch }, { at: night(time), ...signed });
  const notTaken = (load: string) =>
    n.book.record(
      'reading-not-taken',
      { subjectType: 'load', subject: load, point: points.tinCore, answer: 'not-done' },
      { at: night('06:40') },
    );
  const accepted = (deviation: string, lot: string | null, covers: 'this-alone' | 'what-came-of-it') =>
    n.book.record(
      'disposition-decided',
      { deviation, lot, disposition: 'accepted-for-use', covers, concerns: [], quantity: null },
      { at: night('06:45'), person: lead },
    );
  const withdraw = (entry: string) => n.book.record('entry-withdrawn', {}, { corrects: entry, at: night('06:50'), ...reason });
  return { ...n, first, types, crumb, second, exception, notTaken, accepted, withdraw };
}
const notRead = 'not-read: core temperature';

/** A batch that was released by rule, of which one core was of another load, as turns out later. */
function released() {
  const n = night1();
  const [reading] = [n.core(n.loads[0], '97').id, n.core(n.loads[1], '97', '04:41')];
  n.release(n.first);
  n.withdraw(reading);
  return n;
}

describe('what is offered before anything is made of it', () => {
  it('says which critical readings are still to be taken, until each was', () => {
    const n = night1();
    const open = () => stillToRead(workingSetOf(n.book.snapshot()), n.first);
    expect(open()).toEqual(['core temperature']);
    n.core(n.loads[0], '97');
    expect(open()).toEqual(['core temperature']);
    n.core(n.loads[1], '97', '04:41');
    expect(open()).toEqual([]);
  });

  it('does not ask again where somebody said that it was not taken', () => {
    const n = night1();
    n.core(n.loads[0], '97');
    n.notTaken(n.loads[1]);
    expect(stillToRead(workingSetOf(n.book.snapshot()), n.first)).toEqual([]);
  });
});

describe('a critical reading that is not there, of a batch that was released', () => {
  it('speaks against it and what it went into, from its release on', () => {
    const n = released();
    const make = n.crumb('07:00');
    const [reaching] = concernsOf(workingSetOf(n.book.snapshot()), [make]).get(make) ?? [];
    expect(reaching).toMatchObject({
      by: n.first,
      certain: true,
      concern: { type: 'not-read', subject: n.loads[0], lot: n.first, since: new Date(night('05:10')).toISOString() },
    });
    expect(n.types(n.first)).toEqual([notRead]);
    expect(n.book.all('deviation').map((d) => [d.type, d.subject])).toEqual([['held-lot-used', make]]);
  });

  it('ends by a reading that was taken before and is told late, and by none that was taken later', () => {
    const n = released();
    n.core(n.loads[0], '97', '05:20');
    expect(n.types(n.first)).toEqual([notRead]);
    n.core(n.loads[0], '97', '05:00');
    expect(n.types(n.first)).toEqual([]);
  });

  it('ends by a signed exception, which still covers it when somebody says that it was not done', () => {
    const n = released();
    n.exception(n.first);
    expect(n.types(n.first)).toEqual([]);
    n.notTaken(n.loads[0]);
    expect(n.types(n.first)).toEqual([]);
    n.core(n.loads[0], '70', '06:42');
    expect(n.types(n.first)).toEqual(['open-deviation: core temperature']);
  });

  it('ends by an exception about what somebody said of it, also where it is read afterwards', () => {
    const n = released();
    n.notTaken(n.loads[0]);
    n.exception(n.first, '06:45');
    expect(n.types(n.first)).toEqual([]);
    n.core(n.loads[0], '97', '06:48');
    expect(n.types(n.first)).toEqual([]);
  });

  it('is told once where some of it left unreleased: as that it was not released', () => {
    const n = night1();
    const lines = [{ lots: [n.first], quantity: { figure: '3', unit: 'piece' } as const, how: 'counted' as const }];
    for (const time of ['05:20', '05:25'])
      n.book.record('sent-out', { channel: 'stall', customer: null, unattended: false, until: null, lines }, { at: night(time) });
    expect(n.book.all('deviation').map((d) => d.type)).toEqual(['not-released', 'not-released']);
    expect(n.types(n.first)).toEqual(expect.arrayContaining([notRead]));
  });

  it('is told as the deviation that somebody opened about it, and a decision that names it ends it for good', () => {
    const n = released();
    const told = n.notTaken(n.loads[0]);
    expect(n.types(n.first)).toEqual(['open-deviation: core temperature']);
    const deviation = n.book.all('deviation').find((d) => d.type === 'not-taken')?.id ?? told.id;
    n.accepted(deviation, n.first, 'this-alone');
    expect(n.types(n.first)).toEqual([]);
    n.core(n.loads[0], '97', '06:48');
    expect(n.types(n.first)).toEqual([]);
  });

  it('does not end where it was said that it was not done, and read afterwards', () => {
    const n = released();
    n.notTaken(n.loads[0]);
    n.core(n.loads[0], '97', '06:48');
    expect(n.types(n.first)).toEqual([notRead]);
  });

  it('is none of a batch whose exception was signed on the missing reading, also from before that was a concern', () => {
    for (const concern of ['as it is', null]) {
      const n = night1();
      n.core(n.loads[1], '97', '04:41');
      n.exception(n.first, '05:10');
      const row = n.book.all('release')[0];
      if (!row) throw new Error('not released');
      const { id, ...release } = row;
      if (concern === null) n.book.given('release', id, { ...release, findings: release.findings.map((f) => ({ ...f, concern: null })) });
      expect(n.types(n.first)).toEqual([]);
    }
  });

  it('is none where the plan says that a miss holds nothing', () => {
    const n = released();
    const row = n.book.get('controlPoint', points.tinCore);
    if (!row) throw new Error('no point');
    n.book.given('controlPoint', points.tinCore, { ...row, content: { ...row.content, ifNotMonitored: 'record' } });
    expect(n.types(n.first)).toEqual([]);
  });
});

describe('a critical reading of what went into something else', () => {
  it('that is still to be taken speaks against nothing before it is used, nor against its own batch that waits', () => {
    const n = night1();
    expect([n.types(n.make), n.types(n.run), n.types(n.first)]).toEqual([[], [], []]);
    expect(troubleWith(workingSetOf(n.book.snapshot()), n.first, night('05:20'), 'Europe/London')).toBeNull();
  });

  it('and was not taken by then speaks against it, the next use of it, and what is made of it', () => {
    const n = night1();
    const make = n.crumb();
    const batch = n.second(make);
    const state = workingSetOf(n.book.snapshot());
    for (const lot of [n.first, make, batch]) expect(n.types(lot)).toEqual([notRead, notRead]);
    expect(troubleWith(state, n.first, night('05:31'), 'Europe/London')).toBe('held-lot-used');
    expect(troubleWith(state, n.first, night('05:30'), 'Europe/London')).toBeNull();
    expect(n.refused(batch, '06:20').acceptable).toBe(
      'nothing open; there is: a reading that must be taken was not taken before it was used: core temperature; a reading that must be taken was not taken before it was used: core temperature',
    );
  });

  it('ends by readings of before that are told late, and by none that was taken later', () => {
    const n = night1();
    const batch = n.second(n.crumb());
    for (const load of n.loads) n.core(load, '97', '05:31');
    expect(n.types(batch)).toEqual([notRead, notRead]);
    for (const load of n.loads) n.core(load, '97', '05:29');
    expect(n.types(batch)).toEqual([]);
    n.release(batch, '06:20');
  });

  it('ends for one batch by an exception, and for all by a decision that covers what came of it', () => {
    const n = night1();
    n.core(n.loads[1], '97', '04:41');
    const make = n.crumb();
    const batch = n.second(make);
    n.exception(batch);
    expect([n.types(batch), n.types(n.first), n.types(make)]).toEqual([[], [notRead], [notRead]]);
    n.notTaken(n.loads[0]);
    const deviation = n.book.all('deviation').find((d) => d.type === 'not-taken')?.id ?? '';
    n.accepted(deviation, n.first, 'what-came-of-it');
    expect([n.types(batch), n.types(n.first), n.types(make)]).toEqual([[], [], []]);
    n.core(n.loads[0], '97', '06:55');
    expect([n.types(batch), n.types(n.first), n.types(make)]).toEqual([[], [], []]);
  });

  it('is told for old dough of a make that was not read, and not for the batch of that make, which waits', () => {
    const n = oneBatch();
    const content = n.book.get('controlPoint', points.tinCore)?.content;
    if (!content) throw new Error('no point');
    const asked = { step: 'mix', frequency: 'each-make' } as const;
    const boiled = { ...content, ...asked, key: 'boiled', parameter: 'boiled', products: [], formulas: [] };
    n.book.given('controlPoint', uuid(0xb90), { plan, key: 'boiled', content: boiled });
    const kept = { make: n.make, quantity: null, oldDough: g('500'), scrap: null, runs: [] };
    n.book.record('divided', kept, { at: night('03:40') });
    const old = n.book.all('lot').find((l) => l.type === 'old-dough')?.id ?? '';
    const types = (lot: string) => (concernsOf(workingSetOf(n.book.snapshot()), [lot]).get(lot) ?? []).map((r) => r.concern.type);
    expect(types(old)).toEqual([]);
    const begun = { formulaVersion: whiteVersion, station: places.mixer, plan, bakeDay: '2026-11-25', plannedMg: null };
    const make = n.book.record('make-begun', begun, { at: night('04:00') }).id;
    const line = { material: materials.flour, lot: old, quantity: g('400'), how: 'weighed', type: 'ingredient' } as const;
    n.book.record('weighed-in', { make, lines: [line] }, { at: night('04:01') });
    expect([types(old), types(make), types(n.make), types(n.run)]).toEqual([['not-read'], ['not-read'], [], []]);
  });

  it('is the same whatever order the records came in, and for a device that has only the rows behind', () => {
    const steps: readonly [string, (n: ReturnType<typeof night1>) => unknown][] = [
      ['read', (n) => n.core(n.loads[0], '97')],
      ['read late', (n) => n.core(n.loads[1], '97', '05:31')],
      ['read in time', (n) => n.core(n.loads[1], '97', '05:05')],
      ['not done', (n) => n.notTaken(n.loads[0])],
      ['not done either', (n) => n.notTaken(n.loads[1])],
      ['read much later', (n) => n.core(n.loads[0], '97', '06:48')],
    ];
    const told = (of: Snapshot, lot: string) =>
      (concernsOf(workingSetOf(of), [lot]).get(lot) ?? []).map((r) => `${r.concern.type} ${r.concern.subject} ${r.concern.since}`).sort();
    fc.assert(
      fc.property(fc.shuffledSubarray([...steps]), fc.nat({ max: steps.length }), (some, when) => {
        const [one, other] = [night1(), night1()];
        const made: string[] = [];
        for (const n of [one, other]) {
          const ordered = n === one ? some : [...some].sort(([a], [b]) => (a < b ? -1 : 1));
          for (const [, step] of ordered.slice(0, n === one ? when : 0)) step(n);
          made.push(n.second(n.crumb()));
          for (const [, step] of ordered.slice(n === one ? when : 0)) step(n);
        }
        const [a, b] = [one.book.snapshot(), other.book.snapshot()];
        expect(told(a, one.first)).toEqual(told(b, other.first));
        expect(told(a, made[0] ?? '')).toEqual(told(b, made[1] ?? ''));
        const lots = a.lot.map((l) => l.id);
        const reached = new Set(concernsOf(workingSetOf(a), lots).keys());
        const behind = snapshotOf({ flow: a.flow, ...rowsBehind(workingSetOf(a), lots, reached) });
        for (const lot of lots) expect(told(behind, lot)).toEqual(told(a, lot));
      }),
      { numRuns: 25 },
    );
  });
});
