import { openThings } from '@bakehouse/contracts';
import { snapshotOf, type Snapshot } from '@bakehouse/records';
import { lookupOf, onHandOf, troubleOn } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { heldOnToday } from '../support/on-today.js';
import type { Caller } from '../support/people.js';

const now = '2026-11-25T09:00:00.000Z';

/** Three lots of the other site: one on hold that stays there, one under a deviation there, and one that came here and was put on hold afterwards. */
describe('somebody whose role is for one site', () => {
  let t: TestApp;
  let b: Bakehouse;
  let reader: Caller;
  let there: Hand;
  const lots = { stays: '', underDeviation: '', came: '' };
  let deviation: string;
  let hold: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
    reader = await b.house.signedOn('Hera Lee', ['manager'], b.site);
    there = new Hand(b.house, b.lead.caller, b.house.created.sites[1] ?? '');
    for (const name of ['stays', 'underDeviation', 'came'] as const) {
      lots[name] = b.newId();
      const payload = { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [b.line('flour', lots[name])] };
      await there.record('delivery-received', payload, { at: at('01:00', '2026-11-10') });
    }
    // it came here a fortnight ago and was counted here; nothing of these days names it
    await b.baker.record('lot-counted', { lot: lots.came, place: null, quantity: g('20000') }, { at: at('03:00', '2026-11-11') });
    const of = { subjectType: 'lot', subject: lots.underDeviation, class: 'ccp', holds: true } as const;
    deviation = (await there.record('deviation-reported', of, { at: at('06:00'), words: { what: 'a smell of diesel' } })).id;
    const because = { words: { because: 'moth' }, at: at('06:10') };
    hold = (await there.record('hold-placed', { lot: lots.stays, deviation: null }, because)).id;
    await there.record('hold-placed', { lot: lots.came, deviation: null }, because);
  });
  afterAll(() => t.close());

  const nightAt = async (caller: Caller): Promise<Snapshot> =>
    snapshotOf((await caller.get(`/sites/${b.site}/night`).expect(200)).body.rows);
  const openAt = async (caller: Caller, site = b.site) =>
    openThings.parse((await caller.get(`/sites/${site}/open`).expect(200)).body).held.map((h) => h.lot);

  it('is shown nothing of another site’s held lots and deviations, on a tablet or in the office', async () => {
    const night = await nightAt(reader);
    const shown = JSON.stringify(night);
    for (const id of [lots.stays, lots.underDeviation, deviation, hold, 'a smell of diesel'])
      expect([id, shown.includes(id)]).toEqual([id, false]);
    expect(await openAt(reader)).toEqual([lots.came]);
  });

  it('is shown what came from there and is here, with what speaks against it', async () => {
    const lookup = lookupOf(await nightAt(reader), now, 'Europe/London', b.site);
    expect(troubleOn(lookup, lots.came)).toBe('held-lot-used');
    expect(lookup.concerns.get(lots.came)?.map((r) => r.concern.what)).toEqual(['moth']);
    expect(onHandOf(lookup)).toEqual([]);
    expect((await heldOnToday(reader, b.site, now)).map((h) => h.id)).toEqual([lots.came]);
    const atHome = await heldOnToday(there.caller, there.site ?? '', now);
    expect(atHome.map((h) => h.id).sort()).toEqual(Object.values(lots).sort());
  });

  it('may not ask the other site, where all three are on its list', async () => {
    for (const page of ['night', 'open', 'deliveries']) await reader.get(`/sites/${there.site ?? ''}/${page}`).expect(403);
    expect(new Set(await openAt(b.lead.caller, there.site ?? ''))).toEqual(new Set(Object.values(lots)));
  });

  it('is not shown as food on hold here what is the like of a lot that came here, and is elsewhere', async () => {
    const coded = (lot: string) => ({
      ...{ supplier: null, noteNumber: null, photo: null, unattended: false },
      lines: [{ ...b.line('flour', lot), code: 'W 77', codeState: 'on-it' as const }],
    });
    const [elsewhere, here] = [b.newId(), b.newId()];
    await there.record('delivery-received', coded(elsewhere), { at: at('01:00') });
    await b.baker.record('delivery-received', coded(here), { at: at('01:10') });
    await there.record('hold-placed', { lot: elsewhere, deviation: null }, { at: at('06:20'), words: { because: 'moth' } });
    expect((await nightAt(b.lead.caller)).lot.map((l) => l.id)).toContain(elsewhere);
    expect((await heldOnToday(b.lead.caller, b.site, now)).map((h) => h.id).sort()).toEqual((await openAt(b.lead.caller)).sort());
    expect(await openAt(b.lead.caller)).not.toContain(elsewhere);
  });
});
