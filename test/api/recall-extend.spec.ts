import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';

/** What came into reach after a case was opened, and what was freed in it. */
describe('a case that is extended', () => {
  let t: TestApp;
  let b: Bakehouse;
  let decides: Hand;
  beforeAll(async () => {
    t = await startTestApp();
    b = await Bakehouse.found(t);
    decides = new Hand(b.house, b.lead.caller, null);
  });
  afterAll(() => t.close());

  const made = async (of: string, time: string) => {
    const make = await b.begun('frangipane', at(time), { station: b.place('smallMixer') });
    await b.baker.record('weighed-in', { make, lines: [b.into('almond', '100', of)] }, { at: at(time) });
    return make;
  };
  const touched = (time: string) => b.begun('treacle', at(time), { station: b.place('smallMixer') });
  const cleaned = (time: string) =>
    b.baker.record(
      'cleaned-down',
      { place: b.place('smallMixer'), type: 'wet', chemical: null, dilution: null, contactSeconds: null },
      { at: at(time) },
    );
  const opened = async (suspect: string) => {
    const recall = b.newId();
    const asked = { id: recall, suspect: [suspect], hazard: 'allergen', hazardName: 'peanut', practice: false, said: '' };
    await b.lead.caller.post('/recalls', asked).expect(200);
    return recall;
  };
  const free = (recall: string, lot: string, covers: 'this-alone' | 'what-came-of-it') =>
    decides.record(
      'recall-disposition-decided',
      { recall, lot, decision: 'freed', covers, quantity: null },
      { words: { why: 'the laboratory found none' } },
    );
  const shown = async (recall: string) => {
    const { body } = await b.lead.caller.get(`/recalls/${recall}`).expect(200);
    return {
      held: body.undecided.map((l: { lot: string }) => l.lot) as string[],
      notHeld: body.changedSince.notHeld as string[],
    };
  };
  const extend = (recall: string) => b.lead.caller.post(`/recalls/${recall}/extend`, {}).expect(200);

  it('holds nothing of what was freed with the lot that it came of, whenever it was made', async () => {
    const almond = await b.delivered('almond', at('00:01'));
    const recall = await opened(almond);
    const before = await made(almond, '00:10');
    await free(recall, almond, 'this-alone');
    expect(await shown(recall)).toMatchObject({ held: [before], notHeld: [] });
    await free(recall, almond, 'what-came-of-it');
    await made(almond, '00:20');
    await made(before, '00:21');
    await touched('00:22');
    await cleaned('00:30');
    expect(await shown(recall)).toEqual({ held: [], notHeld: [] });
    await extend(recall);
    expect((await shown(recall)).held).toEqual([]);
  });

  it('takes in what touched what it holds, and frees what came of that with it', async () => {
    const almond = await b.delivered('almond', at('01:01'));
    const recall = await opened(almond);
    const make = await made(almond, '01:10');
    const beside = await touched('01:12');
    await cleaned('01:20');
    const of = await made(beside, '01:30');
    await cleaned('01:40');
    expect([...(await shown(recall)).notHeld].sort()).toEqual([beside, of].sort());
    await extend(recall);
    expect([...(await shown(recall)).held].sort()).toEqual([almond, make, beside, of].sort());
    await free(recall, beside, 'what-came-of-it');
    expect([...(await shown(recall)).held].sort()).toEqual([almond, make].sort());
    await extend(recall);
    expect([...(await shown(recall)).held].sort()).toEqual([almond, make].sort());
  });
});
