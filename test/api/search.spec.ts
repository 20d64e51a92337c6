import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { found, type Found } from '@bakehouse/contracts';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import type { Caller } from '../support/people.js';

let t: TestApp;
let b: Bakehouse;
let there: string;
/** May see everything of both sites. */
let everywhere: Caller;
beforeAll(async () => {
  t = await startTestApp();
  b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
  there = b.house.created.sites[1] ?? '';
  everywhere = b.lead.caller;
});
afterAll(() => t.close());

const search = async (words: string, by = everywhere, limit = 8): Promise<Found> => {
  const { body } = await by.get(`/search?words=${encodeURIComponent(words)}&limit=${limit}`).expect(200);
  return found.parse(body);
};
const came = (noteNumber: string | null, time: string, site = b.site, code = 'C-1') =>
  new Hand(b.house, b.baker.caller, site).record(
    'delivery-received',
    { supplier: null, noteNumber, photo: null, unattended: false, lines: [b.line('almond', b.newId(), { code })] },
    { at: at(time) },
  );
/** As answers have it. */
const instant = (time: string): string => new Date(at(time)).toISOString();
const notes = async (words: string, by = everywhere, limit = 8) => (await search(words, by, limit)).deliveries.map((d) => d.note);

describe('a search for anything', () => {
  it('finds lots and batches by a part of their code, with or without its dashes', async () => {
    await came(null, '00:01', b.site, 'QX 55–71 B');
    for (const words of ['qx5571', '55-71', 'X 55'])
      expect([words, (await search(words)).lots.map((l) => l.code)]).toEqual([words, ['QX 55–71 B']]);
  });

  it('finds a delivery by a part of its note’s number: the whole number first, then the newest, with the first of what came', async () => {
    const { id } = await came('DN 48-127', '00:10', b.site, 'DN-L');
    await came('48127', '00:05');
    await came('XX-48127-Z', '00:20');
    expect(await notes('48127')).toEqual(['48127', 'XX-48127-Z', 'DN 48-127']);
    expect(await notes('dn48')).toEqual(['DN 48-127']);
    expect(await notes('48_27')).toEqual([]);
    const [one] = (await search('DN 48-127')).deliveries;
    expect(one).toMatchObject({ id, site: b.site, siteName: 'Mill Lane', receivedAt: instant('00:10') });
    const { body } = await everywhere.get(`/lots/${one?.lot ?? ''}/trace`).expect(200);
    expect(body.lots.map((l: { id: string; code: string }) => [l.id, l.code])).toEqual([[one?.lot, 'DN-L']]);
  });

  it('does not look for one or two letters of a number, which half of them have', async () => {
    await came('ZZ-12', '00:30');
    expect(await notes('zz')).toEqual([]);
    expect(await notes('zz1')).toEqual(['ZZ-12']);
    await everywhere.get('/search?words=').expect(400);
  });

  it('finds suppliers and customers by the name that they have now, and people', async () => {
    const party = b.newId();
    const accepted = { party, type: 'customer' as const, vulnerable: true, unattended: false };
    await b.house.decide({ kind: 'party-accepted', payload: accepted, at: at('00:40'), words: { name: 'Tollgate 100% Café' } });
    expect((await search('gate 100%')).parties).toMatchObject([{ party, name: 'Tollgate 100% Café', vulnerable: true, stopped: null }]);
    await b.house.decide({ kind: 'party-accepted', payload: accepted, at: at('00:41'), words: { name: 'The Turnpike' } });
    expect((await search('tollgate')).parties).toEqual([]);
    await b.house.decide({ kind: 'party-stopped', payload: { party }, at: at('00:42') });
    expect((await search('turnpike')).parties.map((p) => p.stopped)).toEqual([instant('00:42')]);
    const { person } = await b.house.signedOn('Wilhelmina Fenn', ['viewer']);
    expect((await search('helmina')).people).toEqual([{ id: person, name: 'Wilhelmina Fenn', leftAt: null }]);
  });
});

describe('what somebody may not see', () => {
  it('is not found, and takes no place among what is: another site’s deliveries and lots', async () => {
    const here = await b.house.signedOn('Hera Lee', ['food-safety-lead'], b.site);
    await came('LK-7000', '01:00');
    for (let i = 1; i < 4; i += 1) await came(`LK-700${i}`, `01:0${i}`, there, `LK-L${i}`);
    expect(await notes('lk700', here, 2)).toEqual(['LK-7000']);
    expect(await notes('lk700', everywhere, 2)).toEqual(['LK-7003', 'LK-7002']);
    expect((await search('LK-L', here)).lots).toEqual([]);
    expect((await search('LK-L')).lots).toHaveLength(3);
  });

  it('is people, for those who may not see their list', async () => {
    const { caller } = b.baker;
    await caller.get('/people').expect(403);
    expect((await search('helmina', caller)).people).toEqual([]);
  });

  it('is everything, for somebody who may not look', async () => {
    const inspector = await b.house.signedOn('Ina Spector', ['inspector'], b.site);
    await inspector.get('/search?words=48127').expect(403);
  });

  it('is another house', async () => {
    const other = await Bakehouse.found(t);
    for (const words of ['48127', 'turnpike', 'helmina', '5571'])
      expect(await search(words, other.lead.caller)).toEqual({ lots: [], deliveries: [], parties: [], people: [] });
  });
});
