import { lookupOf, openDeviations } from '@bakehouse/views';
import { subjectType } from '@bakehouse/records';
import { openThings } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';

const now = '2026-11-25T09:00:00.000Z';

/** What a screen calls on hold is on the list of what is on hold; where no food is named, nothing is, and no screen says so. */
describe('a deviation that was reported with “put it on hold”', () => {
  let t: TestApp;
  let b: Bakehouse;
  const subjects: Partial<Record<string, string>> = {};
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    const lot = await b.delivered('flour', at('01:00'));
    const make = await b.begun('white', at('02:30'));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '5600', lot)] }, { at: at('02:31') });
    const run = b.newId();
    const runs = [{ run, product: b.material('bloomer'), heads: null, pieces: 12, scaling: g('465') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:30') });
    const oven = { oven: b.place('deckOven'), deck: null, plan: b.plan, bakeDay: '2026-11-25', setting: null, minutes: 28 };
    const { id: load } = await b.baker.record('load-in', { ...oven, lines: [{ run, pieces: 12 }] }, { at: at('04:00') });
    const out = { run, loads: [load], pieces: 8, rejects: 0, code: 'B-1', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    const { id: batch } = await b.baker.record('batch-counted-out', out, { at: at('05:00') });
    const another = b.newId();
    const came = { supplier: null, noteNumber: 'DN 2', photo: null, unattended: false, lines: [b.line('salt', another)] };
    const { id: delivery } = await b.baker.record('delivery-received', came, { at: at('05:10') });
    const instrument = await b.probeInUse();
    Object.assign(subjects, { lot, make, run, load, batch, delivery, instrument, place: b.place('prover'), site: b.site });
  });
  afterAll(() => t.close());

  it.each(subjectType.options)('about a %s is called on hold where food is on hold by it, and nowhere else', async (type) => {
    const subject = subjects[type] ?? '';
    const payload = { subjectType: type, subject, class: 'ccp' as const, holds: true };
    const { id } = await b.baker.record('deviation-reported', payload, { at: at('06:00'), words: { what: 'glass broke' } });
    const { body } = await b.lead.caller.get(`/sites/${b.site}/open`).expect(200);
    const heldByIt = openThings.parse(body).held.filter((h) => h.concerns.some((c) => c.id === id));
    const shown = openDeviations(lookupOf(await b.night(), now, 'Europe/London', b.site)).find((d) => d.id === id);
    expect([type, shown?.state]).toEqual([type, heldByIt.length > 0 ? 'holds' : 'open']);
    expect([type, heldByIt.length > 0]).toEqual([type, !['place', 'instrument', 'site'].includes(type)]);
  });
});
