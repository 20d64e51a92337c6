import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '@bakehouse/records';
import { nightView } from './night-view.js';
import { celsius, delivered, g, lead, materials, night, places, points, row, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

const at = (n: ReturnType<typeof oneBatch>, time: string) =>
  nightView(n.book.snapshot(), { bakeDay: '2026-11-25', at: row(time), zone: 'Europe/London' });

type Line = PayloadFor<'weighed-in'>['lines'][number];

describe('the screen of the night', () => {
  it('tells what is due next, a must first, and no longer once it is read or answered', () => {
    const n = oneBatch();
    const due = (time: string) => at(n, time).due.map((d) => [d.subject, d.key, d.class, d.from, d.again?.verdict ?? null]);
    const core = (load: string, from: string, again: string | null = null) => [load, 'tin-core', 'ccp', row(from), again];
    const dough = [n.make, 'dough', 'process-check', null, null];
    expect(due('04:20')).toEqual([core(n.loads[0], '04:40'), core(n.loads[1], '04:42'), dough]);
    n.core(n.loads[0], '95.1');
    n.core(n.loads[1], '940');
    expect(due('04:45')).toEqual([core(n.loads[1], '04:42', 'not-believable'), dough]);
    n.book.record(
      'reading-not-taken',
      { subjectType: 'make', subject: n.make, point: points.dough, answer: 'not-done' },
      { at: night('04:46') },
    );
    expect(due('04:47').map((d) => d[1])).toEqual(['tin-core']);
  });

  it('keeps a timer for each oven and prover, the first due on top', () => {
    const n = oneBatch();
    const stage = (way: PayloadFor<'stage-passed'>['way'], time: string) =>
      n.book.record(
        'stage-passed',
        { subjects: [{ type: 'run', id: n.run }], place: places.prover, step: 'prove', way },
        { at: night(time) },
      );
    stage('in', '03:35');
    const timers = (time: string) => at(n, time).timers.map((t) => [t.name, t.step, t.placeName, t.since, t.due]);
    expect(timers('04:20')).toEqual([
      ['white tin 800 g', 'bake', 'deckOven', row('04:10'), row('04:40')],
      ['white tin 800 g', 'bake', 'deckOven', row('04:12'), row('04:42')],
    ]);
    stage('out', '04:00');
    const step = (of: PayloadFor<'load-stepped'>['step'], time: string, minutes: number | null = null) =>
      n.book.record('load-stepped', { load: n.loads[0], step: of, minutes }, { at: night(time) });
    step('turned', '04:30');
    expect(at(n, '04:31').loads[0]?.now).toEqual({ in: true, since: row('04:10'), due: row('04:40') });
    step('out', '04:40');
    expect(timers('04:41').map((t) => t[3])).toEqual([row('04:12')]);
    step('back-in', '04:42', 5);
    expect(timers('04:43').map((t) => t[4])).toEqual([row('04:42'), row('04:47')]);
    expect(at(n, '04:43').loads[0]?.now).toEqual({ in: true, since: row('04:42'), due: row('04:47') });
    step('out-again', '04:47');
    expect(at(n, '04:48').loads[0]?.now).toEqual({ in: false, outAt: row('04:47') });
    expect(at(n, '05:00').makes[0]?.runs[0]?.stages).toMatchObject([
      { step: 'prove', from: row('03:35'), to: row('04:00'), seconds: 1500 },
    ]);
  });

  it('keeps the prover’s timer while some of its pieces wait for the oven, and no longer', () => {
    const n = oneBatch();
    const [run, bakeDay] = [uuid(0xe11), '2026-11-25'];
    const begun = { formulaVersion: whiteVersion, station: places.mixer, plan: null, bakeDay, plannedMg: null };
    const make = n.book.record('make-begun', begun, { at: night('02:40') }).id;
    const runs = [{ run, product: materials.tin, heads: null, pieces: 20, scaling: g('910') }];
    n.book.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: night('03:40') });
    const subjects = [{ type: 'run' as const, id: run }];
    n.book.record('stage-passed', { subjects, place: places.prover, step: 'prove', way: 'in' }, { at: night('03:45') });
    const load = (time: string) =>
      n.book.record(
        'load-in',
        {
          oven: places.deckOven,
          deck: null,
          plan: null,
          bakeDay,
          setting: celsius('225'),
          minutes: 30,
          lines: [{ run, pieces: 10 }],
        },
        { at: night(time) },
      );
    const proving = () => at(n, '04:45').timers.filter((t) => t.step === 'prove' && t.subject === run).length;
    load('04:40');
    expect(proving()).toBe(1);
    load('04:42');
    expect(proving()).toBe(0);
  });

  it('shows a make with its lines, its runs and their batches', () => {
    const n = oneBatch({ weighed: false });
    const lot = uuid(0xe01);
    n.book.record(
      'delivery-received',
      {
        supplier: null,
        noteNumber: null,
        photo: null,
        unattended: true,
        lines: [delivered(lot, materials.flour, { code: null, codeState: 'not-known-yet' })],
      },
      { at: night('01:00') },
    );
    n.book.record(
      'weighed-in',
      { make: n.make, lines: [{ material: materials.flour, lot, quantity: g('25000'), how: 'weighed', type: 'ingredient' }] },
      { at: night('02:35') },
    );
    n.book.record(
      'added-on',
      {
        targetType: 'run',
        target: n.run,
        afterOven: false,
        lines: [{ material: materials.tinOil, lot: null, quantity: null, how: 'estimated' }],
      },
      { at: night('03:40') },
    );
    n.book.record(
      'mixed',
      {
        make: n.make,
        minutesSlow: 4,
        minutesFast: 9,
        water: celsius('19'),
        flour: celsius('21'),
        room: celsius('24'),
        dough: celsius('28.5'),
      },
      { at: night('02:50') },
    );
    const { id } = n.countOut();
    const [make] = at(n, '05:10').makes;
    expect(make).toMatchObject({
      name: 'white dough',
      stationName: 'mixer',
      inMg: 25_000_000,
      mixed: { frictionMilli: 21_500 },
      divided: { runsMg: 18_200_000 },
    });
    expect(make?.lines.map((l) => [l.name, l.code, l.mg])).toEqual([['white flour', { code: null, known: 'not-known-yet' }, 25_000_000]]);
    expect(make?.runs).toMatchObject([{ pieces: 20, loaded: 20, loads: n.loads, batches: [id] }]);
    expect(make?.runs[0]?.added.map((l) => [l.name, l.type, l.mg])).toEqual([['tin oil', 'aid', null]]);
    n.book.record('lot-identified', { lot, code: 'E7731', same: null, delivery: null }, { at: night('05:15') });
    expect(at(n, '05:20').makes[0]?.lines[0]?.code).toEqual({ code: 'E7731', known: 'named-later' });
  });

  it('shows what went into a make in the order of its formula, then by time, and two sacks the older first', () => {
    const n = oneBatch({ weighed: false });
    const sacks = [uuid(0xe01), uuid(0xe02)] as const;
    const lines = sacks.map((lot) => delivered(lot, materials.flour));
    n.book.record('delivery-received', { supplier: null, noteNumber: null, photo: null, unattended: false, lines }, { at: night('01:00') });
    const line = (material: string, grams: string, lot: string | null = null, type: Line['type'] = 'ingredient'): Line => ({
      material,
      lot,
      quantity: g(grams),
      how: 'weighed',
      type,
    });
    const weigh = (time: string, ...lines: Line[]) => n.book.record('weighed-in', { make: n.make, lines }, { at: night(time) });
    weigh('02:50', line(materials.cream, '7'), line(materials.water, '200', null, 'late-addition'));
    weigh(
      '02:35',
      line(materials.yeast, '4'),
      line(materials.salt, '3'),
      line(materials.flour, '12', sacks[1]),
      line(materials.water, '2'),
      line(materials.flour, '11', sacks[0]),
    );
    expect(at(n, '03:00').makes[0]?.lines.map((l) => [l.name, l.mg])).toEqual([
      ['white flour', 11_000],
      ['white flour', 12_000],
      ['water', 2_000],
      ['water', 200_000],
      ['salt', 3_000],
      ['fresh yeast', 4_000],
      ['cream', 7_000],
    ]);
  });

  it('tells whether a batch may go, waits or is gone, and what is found after that', () => {
    const n = oneBatch();
    const { id } = n.countOut();
    const release = () => at(n, '05:30').batches.map((b) => b.release);
    expect(release()).toMatchObject([
      {
        state: 'waits',
        findings: [
          { code: 'not-taken', subject: n.loads[0] },
          { code: 'not-taken', subject: n.loads[1] },
        ],
      },
    ]);
    const [first] = n.loads.map((l) => n.core(l, '95.1').id);
    expect(release()).toEqual([{ state: 'may-go' }]);
    n.release(id);
    expect(release()).toEqual([{ state: 'released', way: 'by-rule', at: row('05:10'), since: [] }]);
    n.core(n.loads[0], '91', '04:40', { corrects: first ?? '', words: { reason: 'misread' } });
    expect(release()).toMatchObject([{ state: 'released', since: [{ code: 'open-deviation', subject: n.loads[0] }] }]);
  });

  it('does not tell again what an exception was signed for', () => {
    const n = oneBatch();
    const { id } = n.countOut();
    n.core(n.loads[0], '90');
    n.book.record('released-by-exception', { batch: id }, { at: night('05:10'), person: lead, words: { why: 'cut and looked at' } });
    expect(at(n, '05:30').batches[0]?.release).toMatchObject({ state: 'released', way: 'by-exception', since: [] });
    n.book.record(
      'deviation-reported',
      { subjectType: 'batch', subject: id, class: 'ccp', holds: true },
      { at: night('05:05'), words: { what: 'glass' } },
    );
    expect(at(n, '05:30').batches[0]?.release).toMatchObject({ since: [{ code: 'open-deviation', subject: id, what: 'glass' }] });
  });

  it('lists open deviations with their corrective actions, those that hold food first', () => {
    const n = oneBatch();
    n.book.record(
      'deviation-reported',
      { subjectType: 'site', subject: uuid(3), class: 'process-check', holds: false },
      { at: night('02:00'), words: { what: 'no warm water' } },
    );
    n.core(n.loads[0], '90');
    const states = () => at(n, '05:30').deviations.map((d) => [d.subjectName, d.summary, d.state, d.actions.map((a) => a.type)]);
    expect(states()).toEqual([
      ['white tin 800 g', 'core temperature', 'holds', []],
      [null, 'no warm water', 'open', []],
    ]);
    const deviation = n.book.all('deviation').find((d) => d.subject === n.loads[0])?.id ?? '';
    n.book.record('corrective-action-taken', { deviation, type: 'back-in-the-oven' }, { at: night('04:41') });
    n.core(n.loads[0], '95', '04:50');
    expect(states()).toEqual([
      [null, 'no warm water', 'open', []],
      ['white tin 800 g', 'core temperature', 'open', ['back-in-the-oven']],
    ]);
    n.book.record('deviation-closed', { deviation, staysOnHold: [] }, { at: night('09:00'), person: lead });
    expect(states().map((s) => s[1])).toEqual(['no warm water']);
  });

  it('knows what is open where, since when, how much is left and what is the matter with it', () => {
    const n = oneBatch();
    const lot = uuid(0xe01);
    n.book.record(
      'delivery-received',
      {
        supplier: null,
        noteNumber: null,
        photo: null,
        unattended: false,
        lines: [delivered(lot, materials.flour, { useBy: '2026-11-25' })],
      },
      { at: night('01:00') },
    );
    n.book.record('lot-opened', { station: places.mixer, material: materials.flour, lot, beside: false }, { at: night('01:10') });
    n.book.record(
      'weighed-in',
      { make: n.make, lines: [{ material: materials.flour, lot, quantity: g('8600'), how: 'weighed', type: 'ingredient' }] },
      { at: night('02:35') },
    );
    const { id, ...specification } = n.book.all('specification').find((s) => s.material === materials.flour) ?? { id: '' };
    expect(at(n, '04:00').inUse).toMatchObject([
      { stationName: 'mixer', name: 'white flour', leftMg: 16_400_000, since: row('01:10'), openTooLong: false, trouble: null },
    ]);
    const snapshot = {
      ...n.book.snapshot(),
      specification: n.book.all('specification').map((s) => (s.id === id ? { ...s, lifeOpenedHours: 2 } : s)),
    };
    const later = nightView(snapshot, { bakeDay: '2026-11-25', at: '2026-11-26T00:10:00.000Z', zone: 'Europe/London' });
    expect(later.inUse).toMatchObject([{ openTooLong: true, trouble: 'expired-lot-used' }]);
    expect(specification).toMatchObject({ lifeOpenedHours: null });
  });

  it('shows nothing of another day', () => {
    const other = nightView(oneBatch().book.snapshot(), { bakeDay: '2026-11-24', at: row('05:00'), zone: 'Europe/London' });
    expect([other.makes, other.loads, other.batches, other.due, other.timers]).toEqual([[], [], [], [], []]);
  });

  it('is JSON: what a tablet works out is what a server sends', () => {
    const n = oneBatch();
    n.core(n.loads[0], '90');
    n.countOut();
    const view = at(n, '05:30');
    expect(JSON.parse(JSON.stringify(view))).toEqual(view);
  });
});
