import type { PayloadFor } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius } from '../support/bakehouse.js';
import { catalogue } from '../support/bakehouse-data.js';
import { Hand } from '../support/hand.js';
import { House } from '../support/people.js';
import { queriesDuring } from '../support/queries-during.js';

let t: TestApp;
let b: Bakehouse;
let administrator: Hand;
beforeAll(async () => {
  t = await startTestApp();
  b = await Bakehouse.found(t);
  administrator = new Hand(b.house, b.house.administrator);
});
afterAll(() => t.close());

const look = (path: string) => b.baker.caller.get(path).expect(200);

describe('the catalogue', () => {
  it('lists materials with every specification; of each supplier the newest is in force', async () => {
    const { animalOrigin, ...flour } = catalogue.flour;
    const of = (over: Partial<PayloadFor<'specification-accepted'>>) => ({
      kind: 'specification-accepted' as const,
      at: at('02:00'),
      payload: { ...flour, animalOrigin, material: b.material('flour'), ...over },
    });
    await b.house.decide(of({ contains: ['wheat', 'barley'] }), of({ supplier: b.party('nuts'), mayContain: ['soybeans'] }));
    const { body } = await look('/catalogue/materials');
    const found = body.find((m: { material: string }) => m.material === b.material('flour'));
    expect(found).toMatchObject({ name: 'strong white flour', type: 'ingredient' });
    expect(found.specifications.map((s: object) => s)).toMatchObject([
      { supplierName: 'Nut importer', mayContain: ['soybeans'], inForce: true },
      { supplier: null, contains: ['wheat', 'barley'], inForce: true },
      { supplier: null, contains: ['wheat'], inForce: false },
    ]);
    expect(body.map((m: { name: string }) => m.name)).toEqual(
      [...body.map((m: { name: string }) => m.name)].sort((x: string, y: string) => x.localeCompare(y)),
    );
  });

  it('derives what is made here from its formulas, and says nothing of what nobody checked', async () => {
    const { body } = await look('/catalogue/materials');
    const of = (key: Parameters<Bakehouse['material']>[0]) => body.find((m: { material: string }) => m.material === b.material(key));
    expect(of('tartlet')).toMatchObject({
      by: 'formula',
      allergens: {
        contains: ['wheat', 'barley', 'eggs', 'milk', 'almond'],
        mayContain: ['soybeans'],
        notKnown: [],
        checkedSince: '2026-01-01',
      },
    });
    expect(of('salt')).toMatchObject({
      by: 'specification',
      allergens: { contains: [], mayContain: [], notKnown: [], checkedSince: '2026-01-01' },
      specifications: [{ checked: { against: 'supplier-specification', on: '2026-01-01' }, checkedBy: expect.any(String) }],
    });
    await b.house.decide({
      kind: 'specification-accepted',
      at: at('02:10'),
      payload: { ...catalogue.salt, material: b.material('salt'), checked: null },
    });
    const again = (await look('/catalogue/materials')).body;
    const salt = again.find((m: { material: string }) => m.material === b.material('salt'));
    expect(salt.allergens).toEqual({ contains: [], mayContain: [], notKnown: ['salt'], checkedSince: null });
    expect(again.find((m: { material: string }) => m.material === b.material('bap')).allergens).toMatchObject({ notKnown: ['salt'] });
  });

  it('shows whom to ring to those who look after parties or answer a recall, with their PIN, and to nobody else', async () => {
    const school = async (who: { get(path: string): ReturnType<typeof look> }) => {
      const { body } = await who.get('/catalogue/parties').expect(200);
      return { shown: body.contactsShown, ...body.parties.find((p: { party: string }) => p.party === b.party('school')) };
    };
    expect(await school(b.baker.caller)).toMatchObject({ shown: false, name: 'Primary school', vulnerable: true, contact: null });
    expect(await school(b.lead.caller)).toMatchObject({
      shown: true,
      contact: { name: 'the person who answers', phone: '01632 960015', email: null },
    });
    expect(await school(b.house.administrator)).toMatchObject({ shown: true });
    const tapped = await b.house.join('Tap Only', ['manager']);
    expect(await school(await b.tablet.tap(tapped.person))).toMatchObject({ shown: false, contact: null });
  });

  it('marks a party that is dealt with no more', async () => {
    await new Hand(b.house, b.house.administrator, null).record('party-stopped', { party: b.party('cafeD') }, { at: at('03:00') });
    const { body } = await look('/catalogue/parties');
    expect(body.parties.filter((p: { stopped: string | null }) => p.stopped !== null)).toMatchObject([
      { party: b.party('cafeD'), stopped: '2026-11-25T03:00:00.000Z' },
    ]);
  });

  it('lists a site’s places and instruments, what is in use first, each instrument with its last check', async () => {
    await administrator.record('place-out-of-use', { place: b.place('bench') }, { at: at('03:00') });
    const { body: places } = await look(`/sites/${b.site}/places`);
    expect(places).toHaveLength(9);
    expect(places.at(-1)).toMatchObject({ id: b.place('bench'), type: 'station', outOfUse: '2026-11-25T03:00:00.000Z' });
    const probe = await administrator.record(
      'instrument-in-use',
      { name: 'Probe P1', type: 'probe', unit: 'degC', halfWidth: '0.5' },
      { at: at('01:00') },
    );
    for (const [time, shown] of [
      ['02:00', '0.2'],
      ['03:00', '1.9'],
    ] as const) {
      await b.baker.record(
        'instrument-checked',
        { instrument: probe.id, way: 'ice', shown: celsius(shown), at: { pressurePascal: null, altitudeMetres: null }, tolerance: null },
        { at: at(time) },
      );
    }
    expect((await look(`/sites/${b.site}/instruments`)).body).toEqual([
      {
        id: probe.id,
        name: 'Probe P1',
        type: 'probe',
        unit: 'degC',
        halfWidthMilli: 500,
        since: '2026-11-25T01:00:00.000Z',
        outOfUse: null,
        lastCheck: { at: '2026-11-25T03:00:00.000Z', way: 'ice', passed: false },
      },
    ]);
  });

  it('is one house’s, for those who may look there, by a fixed number of queries', async () => {
    const other = await House.found(t, [
      { name: 'One', zone: 'Europe/London' },
      { name: 'Two', zone: 'Europe/London' },
    ]);
    const [, second] = other.created.sites;
    const theirs = await other.signedOn('Ola Ther', ['viewer'], other.site);
    expect((await theirs.get('/catalogue/materials').expect(200)).body).toEqual([]);
    expect((await theirs.get('/catalogue/parties').expect(200)).body.parties).toEqual([]);
    for (const what of ['places', 'instruments']) {
      await theirs.get(`/sites/${b.site}/${what}`).expect(422);
      await theirs.get(`/sites/${second}/${what}`).expect(403);
      expect((await theirs.get(`/sites/${other.site}/${what}`).expect(200)).body).toEqual([]);
    }
    for (const path of ['/catalogue/materials', '/catalogue/parties', `/sites/${b.site}/places`, `/sites/${b.site}/instruments`])
      expect(await queriesDuring(() => look(path))).toBeLessThan(8);
  });
});
