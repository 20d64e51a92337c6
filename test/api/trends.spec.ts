import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { trend, trendList, type Trend, type TrendList } from '@bakehouse/contracts';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius, g } from '../support/bakehouse.js';

const day = '2026-11-25';
let t: TestApp;
let b: Bakehouse;
let there: string;
let oven: string;
let probe: string;
let load: string;
let readings: string[];

beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock(`${day}T09:00:00Z`) });
  b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
  there = b.house.created.sites[1] ?? '';
  oven = b.place('deckOven');
  probe = await b.probeInUse();
  const make = await b.begun('white', at('02:30'));
  await b.baker.record('weighed-in', { make, lines: [b.into('flour', '5600')] }, { at: at('02:31') });
  const run = b.newId();
  const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
  await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30') });
  const lines = [{ run, pieces: 12 }];
  const into = { oven, deck: null, plan: b.plan, bakeDay: day, setting: null, minutes: 28, lines };
  load = (await b.baker.record('load-in', into, { at: at('04:00') })).id;
  const core = async (figure: string, time: string) =>
    (
      await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, figure, { instrument: probe }), {
        at: at(time),
        ...(figure === '940' ? { words: { note: 'odd' } } : {}),
      })
    ).id;
  readings = [await core('91', '04:30'), await core('95', '04:40')];
  for (const [n, figure] of ['3.1', '4', '39.2'].entries()) {
    const value = n === 2 ? { figure, unit: 'degF' as const } : celsius(figure);
    await b.baker.record(
      'reading-taken',
      { ...b.reading('chilled-in', 'place', b.place('fridge'), figure, { measured: 'air', point: null }), parameter: 'air', value },
      { at: at(`0${5 + n}:00`) },
    );
  }
});
afterAll(() => t.close());

const list = async (by: string, more = ''): Promise<TrendList> =>
  trendList.parse((await b.baker.caller.get(`/sites/${b.site}/trends?by=${by}${more}`).expect(200)).body);
const series = async (
  by: string,
  of: string,
  measured: string,
  parameter: string,
  point: string | null = 'bloomer-core',
): Promise<Trend> => {
  const read = `by=${by}&of=${of}&measured=${measured}&parameter=${encodeURIComponent(parameter)}${point === null ? '' : `&point=${point}`}`;
  return trend.parse((await b.baker.caller.get(`/sites/${b.site}/trends/series?${read}`).expect(200)).body);
};

describe('readings over time', () => {
  it('are listed by where they were taken, by product and by instrument, the newest first', async () => {
    const said = (of: TrendList) => of.series.map((s) => [s.name, s.measured, s.unit, s.readings, s.outside]);
    expect(said(await list('place'))).toEqual([
      ['fridge', 'air', 'degF', 3, 0],
      ['deckOven', 'core', 'degC', 2, 1],
    ]);
    expect(said(await list('product'))).toEqual([['bloomer 400 g', 'core', 'degC', 2, 1]]);
    expect(said(await list('instrument'))).toEqual([['P7', 'core', 'degC', 2, 1]]);
  });

  it('say of each the limit that it was judged by, its verdict, what it was about and with which instrument', async () => {
    const { parameter = '' } = (await list('place')).series.find((s) => s.of === oven) ?? {};
    const found = await series('place', oven, 'core', parameter);
    expect(found.readings.map((r) => [r.id, r.value, r.verdict, r.about, r.instrument, r.doubt])).toEqual([
      [readings[0], 91, 'outside', 'bloomer 400 g', 'P7', null],
      [readings[1], 95, 'within', 'bloomer 400 g', 'P7', null],
    ]);
    expect(found.readings[0]?.limit).toMatchObject({ type: 'range', min: '93' });
    expect(found).toMatchObject({
      leftOut: 0,
      control: null,
      whyNoControl: 'too-few',
      series: { name: 'deckOven', readings: 2, outside: 1 },
    });
    expect(found.days).toEqual([
      { day, readings: 2, lowest: 91, middle: 93, highest: 95, outside: 1, toConfirm: 0, notBelievable: 0, notTaken: 0 },
    ]);
    const [ofProduct] = (await list('product')).series;
    expect((await series('product', ofProduct?.of ?? '', 'core', parameter)).readings).toEqual(found.readings);
  });

  it('are in the unit of the newest, whatever each was read in', async () => {
    const found = await series('place', b.place('fridge'), 'air', 'air', null);
    expect(found.readings.map((r) => r.value)).toEqual([37.58, 39.2, 39.2]); // 3.1 °C and 4 °C are 37.58 °F and 39.2 °F
    expect(found.readings.map((r) => [r.figure, r.unit])).toEqual([
      ['3.1', 'degC'],
      ['4', 'degC'],
      ['39.2', 'degF'],
    ]);
  });

  it('show what was not taken where it was due', async () => {
    const { parameter = '' } = (await list('place')).series.find((s) => s.of === oven) ?? {};
    const missed = { subjectType: 'load', subject: load, answer: 'not-done', point: b.point('bloomer-core') } as const;
    await b.baker.record('reading-not-taken', missed, { at: at('04:50') });
    const found = await series('place', oven, 'core', parameter);
    expect(found.notTaken).toMatchObject([{ answer: 'not-done', about: 'bloomer 400 g' }]);
    expect(found.days).toMatchObject([{ notTaken: 1 }]);
  });

  it('are to be confirmed once their thermometer has failed its check', async () => {
    const { parameter = '' } = (await list('place')).series.find((s) => s.of === oven) ?? {};
    await b.baker.record(
      'instrument-checked',
      {
        instrument: probe,
        way: 'ice',
        shown: celsius('2.6'),
        at: { pressurePascal: null, altitudeMetres: null },
        tolerance: null,
      },
      { at: at('07:30') },
    );
    const found = await series('instrument', probe, 'core', parameter);
    expect(found.readings.map((r) => [r.verdict, r.doubt?.why])).toEqual([
      ['outside', 'failed-check'],
      ['within', 'failed-check'],
    ]);
    expect(found.days).toMatchObject([{ outside: 0, toConfirm: 2 }]);
  });

  it('are told apart by what they were read for: no course mixes two limits', async () => {
    const { parameter = '' } = (await list('place')).series.find((s) => s.of === oven) ?? {};
    await b.baker.record('reading-taken', b.reading('tin-core', 'load', load, '94.5'), { at: at('04:55') });
    const ofOven = (await list('place')).series.filter((s) => s.of === oven);
    expect(ofOven.map((s) => [s.point, s.parameter, s.readings]).sort()).toEqual([
      ['bloomer-core', parameter, 2],
      ['tin-core', parameter, 1],
    ]);
    expect(ofOven.map((s) => s.pointName)).not.toContain(null);
    expect((await series('place', oven, 'core', parameter)).readings.map((r) => r.value)).toEqual([91, 95]);
    expect((await series('place', oven, 'core', parameter, 'tin-core')).readings.map((r) => r.value)).toEqual([94.5]);
  });

  it('are those of the site and the days that are asked for', async () => {
    expect((await list('place', '&from=2026-11-26&until=2026-11-26')).series).toEqual([]);
    expect((await list('place', `&from=${day}&until=${day}`)).series).toHaveLength(3);
    await b.baker.caller.get(`/sites/${there}/trends`).expect(200);
    const elsewhere = await b.lead.caller.get(`/sites/${there}/trends?by=place`).expect(200);
    expect(elsewhere.body.series).toEqual([]);
  });

  it('are refused for days out of order, more than a year of them, and what nobody read', async () => {
    const refused = async (query: string): Promise<unknown> =>
      (await b.baker.caller.get(`/sites/${b.site}/trends${query}`).expect(422)).body;
    expect(await refused('?from=2026-11-26&until=2026-11-25')).toMatchObject({ field: 'from' });
    expect(await refused('?from=2025-11-24&until=2026-11-25')).toMatchObject({ field: 'from' });
    expect(await refused(`/series?by=place&of=${b.newId()}&measured=core&parameter=x`)).toMatchObject({ field: 'of' });
  });
});
