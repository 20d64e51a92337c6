import type { CounterView } from '@bakehouse/contracts';
import type { PayloadFor } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { catalogue, type Material } from '../support/bakehouse-data.js';

/** What is in a bap follows what was used: changes from the formula, and what is learnt of goods after they came. */
describe('what is in it by what was used', () => {
  let t: TestApp;
  let b: Bakehouse;
  let make: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T08:00:00Z') });
    b = await Bakehouse.found(t);
    make = await b.begun('white', at('02:35'), { station: b.place('mixer') });
    const lots = { flour: await b.delivered('flour', at('01:00')), water: await b.delivered('water', at('01:00')) };
    await b.baker.record(
      'weighed-in',
      { make, lines: [b.into('flour', '25000', lots.flour), b.into('water', '15000', lots.water)] },
      { at: at('02:36') },
    );
    const run = b.newId();
    const runs = [{ run, product: b.material('bap'), heads: null, pieces: 20, scaling: g('75') }];
    await b.baker.record('divided', { make, quantity: null, oldDough: null, scrap: g('0'), runs }, { at: at('03:40') });
    await b.baker.record(
      'batch-counted-out',
      { run, loads: [], pieces: 20, rejects: 0, code: '25-bap', bakedOn: '2026-11-25', bestBefore: null, useBy: null },
      { at: at('06:00') },
    );
  });
  afterAll(() => t.close());

  const counter = async (): Promise<CounterView> => (await request(t.server).get('/api/v1/counter').expect(200)).body;
  const bap = async () => (await counter()).products.find((p) => p.name === 'bap');
  const accept = (key: Material, time: string, change: Partial<PayloadFor<'specification-accepted'>>) =>
    b.house.decide({ kind: 'specification-accepted', at: at(time), payload: { ...catalogue[key], material: b.material(key), ...change } });

  it('is "not" against checked specifications alone, and tells since when', async () => {
    expect(await bap()).toMatchObject({ answers: { wheat: 'contains', almond: 'not', sesame: 'not' }, checkedSince: '2026-01-01' });
  });

  it('is contained by a change that names a material before any lot of it was weighed in', async () => {
    const instead = await b.baker.record(
      'one-off-changed',
      { make, material: b.material('oil'), instead: b.material('almond') },
      { at: at('02:50') },
    );
    expect(await bap()).toMatchObject({ answers: { almond: 'contains', sesame: 'not' }, notOnTicket: ['almond'] });
    await b.baker.record('entry-withdrawn', {}, { corrects: instead.id, words: { reason: 'not so' } });
    expect((await bap())?.answers.almond).toBe('not');
  });

  it('follows the formulas of what is made here, where that was used instead: the rest is not known', async () => {
    const payload = { make, material: b.material('oil'), instead: b.material('frangipane') };
    const instead = await b.baker.record('one-off-changed', payload, { at: at('02:51') });
    expect((await bap())?.answers).toMatchObject({ almond: 'contains', eggs: 'contains', sesame: 'unknown' });
    await b.baker.record('entry-withdrawn', {}, { corrects: instead.id, words: { reason: 'not so' } });
  });

  it('is not known after a change that is told in words alone, and the same after one of an amount', async () => {
    const less = { make, material: b.material('flour'), instead: null };
    await b.baker.record('one-off-changed', less, { at: at('02:52'), words: { change: '32 kg, not 40' } });
    expect((await bap())?.answers.almond).toBe('not');
    const words = await b.baker.record(
      'one-off-changed',
      { make, material: null, instead: null },
      { at: at('02:53'), words: { change: 'almond for the oil' } },
    );
    expect(await bap()).toMatchObject({ answers: { wheat: 'contains', almond: 'unknown' }, checkedSince: null });
    await b.baker.record('entry-withdrawn', {}, { corrects: words.id, words: { reason: 'not so' } });
  });

  it('is what a specification says that was accepted after the goods came: warned, and tickets are out of date', async () => {
    await accept('flour', '07:00', { contains: ['wheat', 'barley'], mayContain: ['lupin'] });
    expect(await bap()).toMatchObject({
      answers: { barley: 'contains', lupin: 'may-contain', almond: 'not' },
      notOnTicket: ['barley', 'lupin'],
      staleSince: '2026-11-25T07:00:00.000Z',
    });
    expect((await counter()).opened).toEqual([
      { at: '2026-11-25T07:00:00.000Z', how: 'specification', contains: ['barley'], mayContain: ['lupin'] },
    ]);
  });

  it('is absent only where all that is said of the goods agrees: what the later one leaves out stays, what it did not check is not known', async () => {
    await accept('flour', '07:10', { contains: ['wheat'], mayContain: [] });
    expect((await bap())?.answers).toMatchObject({ barley: 'contains', lupin: 'may-contain', almond: 'not' });
    await accept('flour', '07:20', { checked: null });
    expect(await bap()).toMatchObject({ answers: { barley: 'contains', almond: 'unknown' }, checkedSince: null });
  });
});
