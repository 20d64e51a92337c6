import type { CounterView, TraceView } from '@bakehouse/contracts';
import { contentId } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { lookupOf, makesOf } from '@bakehouse/views';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { contentIdSql } from '../../apps/api/src/platform/ledger/later-content.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { OneTruth } from '../support/one-truth.js';

const now = '2026-11-25T09:00:00.000Z';

/** A dough takes of a tub what its baker knows to be in it. Some of a suspect lot had been put in by then, and is recorded in the morning. */
describe('a top-up that is recorded after something was taken of the vessel', () => {
  let t: TestApp;
  let b: Bakehouse;
  let [clean, suspect, first, late, dough, earlier, batch, tub] = ['', '', '', '', '', '', '', ''];
  const fill = async (lot: string, time: string): Promise<string> =>
    (
      await b.baker.record(
        'vessel-topped-up',
        {
          vessel: tub,
          material: b.material('flour'),
          kept: g('700'),
          keptHow: 'weighed',
          added: [{ material: b.material('almond'), lot, quantity: g('300'), how: 'weighed' }],
        },
        { at: at(time) },
      )
    ).id;
  const take = async (time: string): Promise<string> => {
    const make = await b.begun('white', at(time));
    await b.baker.record('weighed-in', { make, lines: [b.into('flour', '600', first)] }, { at: at(time) });
    return make;
  };

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    tub = (
      await new Hand(b.house, b.house.administrator).record(
        'place-in-use',
        { name: 'Tub', type: 'vessel', within: null },
        { at: at('00:10') },
      )
    ).id;
    clean = await b.delivered('flour', at('00:20'));
    suspect = await b.delivered('almond', at('00:20'));
    first = await fill(clean, '01:00');
    earlier = await take('01:30');
    dough = await take('02:10');
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, pieces: 6, scaling: g('75') }];
    await b.baker.record('divided', { make: dough, quantity: null, oldDough: null, scrap: null, runs }, { at: at('03:00') });
    const counted = { run, loads: [], pieces: 6, rejects: 0, code: 'BAP', bakedOn: '2026-11-25', bestBefore: null, useBy: null };
    batch = (await b.baker.record('batch-counted-out', counted, { at: at('05:00') })).id;
    await b.night();
    late = await fill(suspect, '02:00');
  });
  afterAll(() => t.close());

  const trace = async (lot: string, direction: string): Promise<TraceView> =>
    (await b.lead.caller.get(`/lots/${lot}/trace?direction=${direction}`).expect(200)).body;

  it('is traced both ways, with a share of at most what was in the vessel', async () => {
    const forward = await trace(suspect, 'forward');
    expect(forward.lots.map((l) => l.id)).toEqual(expect.arrayContaining([late, dough, batch]));
    expect(forward.lots.map((l) => l.id)).not.toContain(earlier);
    const of = forward.lots.find((l) => l.id === dough);
    expect(of).toMatchObject({ certain: false, minPpt: 0, maxPpt: 300_000_000_000 });
    expect((await trace(batch, 'backward')).lots.map((l) => l.id)).toEqual(expect.arrayContaining([first, late, suspect, clean]));
    expect((await trace(earlier, 'backward')).lots.map((l) => l.id)).not.toContain(suspect);
  });

  it('is one amount of any of both contents, in the balance of each', async () => {
    const { body } = await b.lead.caller.get(`/lots/${late}/trace?direction=forward`).expect(200);
    expect(JSON.stringify(body)).toContain(dough);
    const lookup = lookupOf(await b.night(), now, 'Europe/London', b.site);
    const [line, ...more] = makesOf(lookup, '2026-11-25').find((m) => m.id === dough)?.lines ?? [];
    expect(more).toEqual([]);
    expect(line).toMatchObject({ lot: first, mg: 600_000 });
    expect(line?.orCodes).toHaveLength(1);
  });

  it('is answered for at the counter', async () => {
    const { body }: { body: CounterView } = await request(t.server).get(`/api/v1/counter/${b.site}`).expect(200);
    expect(body.products.find((p) => p.product === b.material('bap'))?.answers).toMatchObject({ almond: 'contains' });
  });

  it('is held by a case on that lot, on every screen', async () => {
    const recall = b.newId();
    const of = { id: recall, suspect: [suspect], hazard: 'physical', hazardName: 'glass', practice: false, said: 'the mill rang' };
    await b.lead.caller.post('/recalls', of).expect(200);
    const truth = await OneTruth.of(b, now);
    expect([...truth.held.keys()]).toEqual(expect.arrayContaining([late, batch]));
    expect(truth.held.has(earlier)).toBe(false);
    const lookup = await truth.isTheTablets();
    await truth.isTheLists();
    await truth.isTheOfficersAndTheCounters(lookup);
    await truth.isTheCases(recall);
  });

  it('names the row of a content as the records do', () =>
    connected(t.database.ownerUrl, async (owner) => {
      const { rows } = await owner.query<{ id: string }>(`SELECT ${contentIdSql('l')} AS id FROM unnest($1::uuid[]) l`, [[first, late]]);
      expect(rows.map((r) => r.id)).toEqual([contentId(first), contentId(late)]);
    }));
});
