import type { InspectedDeviation, InspectionView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g, pieces } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';

const now = '2026-11-25T08:00:00.000Z';

/** Baps made at one site and sent in part to the shop, where glass is found: each site decides about what it has, and the shop closes the deviation. */
describe('a deviation about food that is at two sites', () => {
  let t: TestApp;
  let b: Bakehouse;
  let steps: string;
  let batch: string;
  let deviation: string;

  const inspected = async (site: string): Promise<InspectionView> =>
    (await b.lead.caller.get(`/sites/${site}/inspection`).expect(200)).body as InspectionView;
  const listed = async (site: string): Promise<InspectedDeviation | undefined> =>
    (await inspected(site)).deviations.find((d) => d.id === deviation);
  const pack = async (site: string): Promise<string> => {
    const { bytes } = await fileFrom(b.lead.caller, `/sites/${site}/inspection/pack.pdf`);
    return (await pagesOf(bytes)).map((p) => p.text).join(' ');
  };

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
    steps = b.house.created.sites[1] ?? '';
    const shop = b.newId();
    const party = { party: shop, type: 'own-shop' as const, vulnerable: false, unattended: false };
    await b.house.decide({ kind: 'party-accepted', payload: party, words: { name: 'Harbour Steps' }, at: at('00:05') });
    const dough = await b.begun('white', at('01:00'));
    await b.baker.record(
      'weighed-in',
      { make: dough, lines: [b.into('flour', '1000', await b.delivered('flour', at('00:10')))] },
      { at: at('01:05') },
    );
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, scaling: g('45'), pieces: 10 }];
    await b.baker.record('divided', { make: dough, quantity: null, runs, oldDough: null, scrap: null }, { at: at('01:10') });
    const counted = { run, loads: [], pieces: 10, rejects: 0, code: 'BAP-1', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('02:00') })).id;
    const lines = [{ lots: [batch], quantity: pieces(4), how: 'counted' as const }];
    await b.baker.record('sent-out', { channel: 'own-shop', customer: shop, unattended: false, until: null, lines }, { at: at('05:00') });

    const inShop = new Hand(b.house, b.lead.caller, steps);
    const about = { subjectType: 'lot', subject: batch, class: 'ccp', holds: true } as const;
    deviation = (await inShop.record('deviation-reported', about, { at: at('06:00'), words: { what: 'glass' } })).id;
    const food = { deviation, lot: batch, disposition: 'destroyed' as const, covers: 'this-alone' as const, concerns: [] };
    await inShop.record('disposition-decided', { ...food, quantity: pieces(4) }, { at: at('06:10'), words: { note: 'those in the shop' } });
    const action = { deviation, type: 'told-somebody' } as const;
    await inShop.record('corrective-action-taken', action, { at: at('06:05'), words: { action: 'rang the bakehouse' } });
    await b.lead.record('disposition-decided', { ...food, quantity: pieces(6) }, { at: at('06:20'), words: { note: 'those at home' } });
    await inShop.record('deviation-closed', { deviation, staysOnHold: [] }, { at: at('06:30'), words: { review: 'jar lids checked' } });
  });
  afterAll(() => t.close());

  it('is told whole at each site that lists it, whichever of them recorded what, and the other is told where it was reported', async () => {
    const whole = {
      actions: [{ type: 'told-somebody', doneBy: 'Lee Dehl' }],
      disposition: [
        { disposition: 'destroyed', pieces: 4, note: 'those in the shop', signedBy: 'Lee Dehl' },
        { disposition: 'destroyed', pieces: 6, note: 'those at home', signedBy: 'Lee Dehl' },
      ],
      closed: { at: '2026-11-25T06:30:00.000Z', by: 'Lee Dehl', review: 'jar lids checked' },
    };
    expect(await listed(steps)).toMatchObject({ ...whole, reportedAtSite: null });
    expect(await listed(b.site)).toMatchObject({ ...whole, reportedAtSite: 'Harbour Steps' });
  });

  it('is told by itself at each site as the page of its day tells it there', async () => {
    for (const site of [steps, b.site]) {
      const { body } = await b.lead.caller.get(`/sites/${site}/inspection/deviations/${deviation}`).expect(200);
      expect(body).toEqual(await listed(site));
    }
  });

  it('is not told at a site that it has nothing to do with', async () => {
    const about = { subjectType: 'site', subject: steps, class: 'oprp', holds: false } as const;
    const inShop = new Hand(b.house, b.lead.caller, steps);
    const { id } = await inShop.record('deviation-reported', about, { at: at('07:00'), words: { what: 'a window pane' } });
    await b.lead.caller.get(`/sites/${steps}/inspection/deviations/${id}`).expect(200);
    const { body } = await b.lead.caller.get(`/sites/${b.site}/inspection/deviations/${id}`).expect(422);
    expect(JSON.stringify(body)).not.toContain('window');
  });

  it('may be about a batch that came from the other site, and holds it there too', async () => {
    const about = { subjectType: 'batch', subject: batch, class: 'ccp', holds: true } as const;
    const inShop = new Hand(b.house, b.lead.caller, steps);
    const { id } = await inShop.record('deviation-reported', about, { at: at('07:10'), words: { what: 'smells of solvent' } });
    const { body } = await b.lead.caller.get(`/sites/${b.site}/inspection/deviations/${id}`).expect(200);
    expect(body).toMatchObject({ id, subjectType: 'batch', reportedAtSite: 'Harbour Steps' });
    const other = { ...about, subjectType: 'run' as const };
    // Nobody here has recorded anything about it: it is about a batch of this site all the same, and it is open.
    expect((await inspected(b.site)).deviations.find((d) => d.id === id)).toEqual(body);
    expect(await pack(b.site)).toContain('smells of solvent');
    await expect(inShop.record('deviation-reported', other, { at: at('07:11'), words: { what: 'x' } })).rejects.toThrow('unknown-subject');
  });

  it('may be about a delivery of the other site, and is told here once some of it has come', async () => {
    const lot = b.newId();
    const inShop = new Hand(b.house, b.lead.caller, steps);
    const received = { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [b.line('flour', lot)] };
    const { id: delivery } = await inShop.record('delivery-received', received, { at: at('03:00') });
    const about = { subjectType: 'delivery', subject: delivery, class: 'ccp', holds: true } as const;
    const { id } = await inShop.record('deviation-reported', about, { at: at('07:20'), words: { what: 'a wet pallet' } });
    const here = async () => (await inspected(b.site)).deviations.map((d) => d.id);
    expect(await here()).not.toContain(id);
    await b.baker.record('lot-counted', { lot, place: null, quantity: g('500') }, { at: at('07:30') });
    expect(await here()).toContain(id);
  });

  it('says at the site that reported it that food is on hold for it, though all of that is at the other', async () => {
    const lot = await b.delivered('flour', at('04:00'));
    const inShop = new Hand(b.house, b.lead.caller, steps);
    const about = { subjectType: 'lot', subject: lot, class: 'ccp', holds: true } as const;
    const { id } = await inShop.record('deviation-reported', about, { at: at('07:40'), words: { what: 'rang: weevils' } });
    for (const site of [steps, b.site]) {
      expect((await inspected(site)).deviations.find((d) => d.id === id)).toMatchObject({ onHold: true });
      expect((await b.lead.caller.get(`/sites/${site}/inspection/deviations/${id}`).expect(200)).body).toMatchObject({ onHold: true });
    }
  });

  it('stands in the pack of the other site with where it was reported and how it was closed', async () => {
    const text = await pack(b.site);
    expect(text).toMatch(/glass.*reported at Harbour Steps/);
    expect(text).toContain('jar lids checked');
    expect(text).toContain('those in the shop');
  });
});
