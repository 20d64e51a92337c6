import type { InspectionView } from '@bakehouse/contracts';
import { snapshotOf } from '@bakehouse/records';
import { lookupOf, openDeviations } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius, g } from '../support/bakehouse.js';

const [bakeDay, later] = ['2026-11-11', '2026-11-25'];

/** A probe failed its check after it had read a load; that was closed. A fortnight later the flour is put on hold, and the tablet gets all that is behind it. */
describe('a deviation about a thermometer that was closed long ago', () => {
  const clock = new SettableClock(`${bakeDay}T09:00:00Z`);
  let t: TestApp;
  let b: Bakehouse;
  let deviation: string | undefined;
  beforeAll(async () => {
    t = await startTestApp({ clock });
    b = await Bakehouse.found(t);
    const instrument = await b.probeInUse();
    const flour = await b.delivered('flour', at('02:00', bakeDay));
    const make = await b.begun('white', at('02:30', bakeDay));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '5600', flour)] }, { at: at('02:31', bakeDay) });
    const run = b.newId();
    const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30', bakeDay) });
    const into = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay, setting: null, minutes: 28, lines: [{ run, pieces: 12 }] };
    const load = (await b.baker.record('load-in', into, { at: at('04:00', bakeDay) })).id;
    await b.baker.record('reading-taken', b.reading('bloomer-core', 'load', load, '95', { instrument }), { at: at('04:40', bakeDay) });
    const counted = { run, loads: [load], pieces: 12, rejects: 0, code: 'B-1', bakedOn: bakeDay, bestBefore: null, useBy: null };
    await b.baker.record('batch-counted-out', counted, { at: at('05:00', bakeDay) });
    const check = {
      instrument,
      way: 'ice',
      shown: celsius('4'),
      tolerance: null,
      at: { pressurePascal: null, altitudeMetres: null },
    } as const;
    await b.baker.record('instrument-checked', check, { at: at('07:00', bakeDay) });
    deviation = (await b.night()).deviation.find((d) => d.subject === instrument)?.id;
    await b.lead.record(
      'deviation-closed',
      { deviation: deviation ?? '', staysOnHold: [] },
      { at: at('08:00', bakeDay), words: { review: 'gone to the maker' } },
    );
    clock.set(`${later}T08:00:00Z`);
    await b.signOnAgain();
    await b.lead.record('hold-placed', { lot: flour, deviation: null }, { at: at('07:00', later), words: { because: 'mites' } });
  });
  afterAll(() => t.close());

  it('is closed on the tablet as on the officer’s page', async () => {
    const { body } = await b.lead.caller.get(`/sites/${b.site}/night`).expect(200);
    const lookup = lookupOf(snapshotOf(body.rows), `${later}T08:00:00.000Z`, 'Europe/London', b.site);
    const page: InspectionView = (await b.lead.caller.get(`/sites/${b.site}/inspection?from=${bakeDay}&until=${later}`).expect(200)).body;
    const closed = page.deviations.filter((d) => d.closed !== null).map((d) => d.id);
    expect(closed).toEqual([deviation]);
    expect(openDeviations(lookup).map((d) => d.id)).toEqual(page.deviations.filter((d) => d.closed === null).map((d) => d.id));
  });
});
