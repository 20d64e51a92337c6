import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';

/** What was made in one bowl, one after the other, and when that bowl was cleaned. */
describe('what shared a bowl', () => {
  let t: TestApp;
  let b: Bakehouse;
  beforeAll(async () => {
    t = await startTestApp();
    b = await Bakehouse.found(t);
  });
  afterAll(() => t.close());

  const almond = () => b.delivered('almond', at('00:01'));
  const frangipane = (time: string) => b.begun('frangipane', at(time), { station: b.place('smallMixer') });
  const treacle = (time: string) => b.begun('treacle', at(time), { station: b.place('smallMixer') });
  const putIn = (make: string, lot: string, time: string) =>
    b.baker.record('weighed-in', { make, lines: [b.into('almond', '100', lot)] }, { at: at(time) });
  const cleaned = (time: string, type: 'wet' | 'dry' | 'allergen-change' = 'wet') =>
    b.baker.record(
      'cleaned-down',
      { place: b.place('smallMixer'), type, chemical: null, dilution: null, contactSeconds: null },
      { at: at(time) },
    );
  /** Each lot that the trace reaches, with what it came from and how. */
  const reached = async (lot: string): Promise<ReadonlyMap<string, { from: string; type: string } | null>> => {
    const { body } = await b.lead.caller.get(`/lots/${lot}/trace?hazard=allergen`).expect(200);
    return new Map(body.lots.map((l: { id: string; by: { from: string; type: string } | null }) => [l.id, l.by]));
  };

  it('is reached where the bowl was cleaned after the make was begun and before anything was put in', async () => {
    const lot = await almond();
    const make = await frangipane('00:10');
    await cleaned('00:12');
    await putIn(make, lot, '00:15');
    const next = await treacle('00:20');
    await cleaned('00:25');
    const clean = await treacle('00:30');
    const found = await reached(lot);
    expect(found.get(next)).toMatchObject({ from: make, type: 'contact' });
    expect(found.has(clean)).toBe(false);
  });

  it('ends at the first cleaning after the last that was put in, each with the make that it touched', async () => {
    const lot = await almond();
    const make = await frangipane('01:00');
    await putIn(make, lot, '01:01');
    const second = await treacle('01:05');
    await cleaned('01:10');
    await putIn(make, lot, '01:15');
    const third = await treacle('01:20');
    const fourth = await treacle('01:21');
    await cleaned('01:25');
    const clean = await treacle('01:30');
    const found = await reached(lot);
    expect([second, third].map((id) => found.get(id)?.from)).toEqual([make, make]); // the second was cleaned away before the third
    expect(found.has(fourth)).toBe(true);
    expect(found.has(clean)).toBe(false);
  });

  it.each([
    ['dry', true],
    ['wet', false],
    ['allergen-change', false],
  ] as const)('after a clean of the type %s is reached: %s', async (type, is) => {
    const lot = await almond();
    const make = await frangipane('02:20');
    await putIn(make, lot, '02:21');
    await cleaned('02:22', type);
    const next = await treacle('02:25');
    await cleaned('02:30');
    expect((await reached(lot)).has(next)).toBe(is);
  });

  it('is in the scope of a trace that nobody has named a hazard for, which never says that a hazard does not dilute', async () => {
    const lot = await almond();
    const make = await frangipane('03:00');
    await putIn(make, lot, '03:01');
    const next = await treacle('03:05');
    await cleaned('03:10');
    const reachedFor = async (query: string) => (await b.lead.caller.get(`/lots/${lot}/trace${query}`).expect(200)).body;
    const any = await reachedFor('');
    expect(any.lots.find((l: { id: string }) => l.id === next)).toMatchObject({ certain: false, by: { from: make, type: 'contact' } });
    expect(any.rule).toContain('No hazard is chosen');
    expect(any.rule).not.toContain('does not dilute');
    expect((await reachedFor('?hazard=physical')).lots.map((l: { id: string }) => l.id)).not.toContain(next);
  });

  it('takes both of two makes that were begun at the same moment, and neither touches the other', async () => {
    const lot = await almond();
    const make = await frangipane('02:00');
    await putIn(make, lot, '02:01');
    const [one, two] = [await treacle('02:05'), await treacle('02:05')];
    const later = await treacle('02:06');
    await cleaned('02:10');
    const found = await reached(lot);
    expect([one, two].map((id) => found.get(id)?.from)).toEqual([make, make]);
    expect(found.has(later)).toBe(true);
  });

  it('is not reached by what came before, and not where nothing spreads by touch', async () => {
    const lot = await almond();
    const before = await treacle('02:50');
    const make = await frangipane('03:00');
    await putIn(make, lot, '03:01');
    const after = await treacle('03:05');
    await cleaned('03:10');
    expect([(await reached(lot)).has(before), (await reached(lot)).has(after)]).toEqual([false, true]);
    const { body } = await b.lead.caller.get(`/lots/${lot}/trace?hazard=physical`).expect(200);
    expect(body.lots.map((l: { id: string }) => l.id)).not.toContain(after);
  });
});
