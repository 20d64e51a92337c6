import { snapshotOf } from '@bakehouse/records';
import { inUseView, lookupOf } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';

const now = '2026-11-25T09:00:00.000Z';

/** The supplier's lot 44-71 came here twice and once to the other site; the one there is on hold. An almond lot has the same figures on it. */
describe('a lot with the code of one that is on hold', () => {
  let t: TestApp;
  let b: Bakehouse;
  let there: Hand;
  let here: string;
  let far: string;
  let almond: string;
  let hold: string;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t, {}, [{ name: 'Harbour Steps', zone: 'Europe/London' }]);
    there = new Hand(b.house, b.lead.caller, b.house.created.sites[1] ?? '');
    here = await b.delivered('flour', at('01:00'), { code: '44-71 A' });
    almond = await b.delivered('almond', at('01:02'), { code: '4471a' });
    far = b.newId();
    const came = { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [b.line('flour', far, { code: '4 471–A' })] };
    await there.record('delivery-received', came, { at: at('01:00', '2026-11-10') });
    hold = (await there.record('hold-placed', { lot: far, deviation: null }, { at: at('02:00'), words: { because: 'moth' } })).id;
  });
  afterAll(() => t.close());

  const opened = (material: 'flour' | 'almond', lot: string, time: string) =>
    b.baker.record('lot-opened', { station: b.place('mixer'), material: b.material(material), lot, beside: false }, { at: at(time) });
  const listed = async () => {
    const { rows } = (await b.baker.caller.get(`/sites/${b.site}/night`).expect(200)).body;
    return inUseView(lookupOf(snapshotOf(rows), now, 'Europe/London', b.site)).map((u) => [u.lot, u.alikeHeld, u.trouble]);
  };
  const weighed = async (time: string) => {
    const make = await b.begun('white', at(`${time}:00`));
    const lines = [b.into('flour', '1000', here), b.into('almond', '10', almond)];
    const { outcome } = await b.baker.record('weighed-in', { make, lines }, { at: at(`${time}:01`) });
    return outcome.lines.map((l) => [l.alikeHeld, l.trouble]);
  };

  it('is said when it is opened and on the list of what is open, and puts nothing on hold', async () => {
    expect((await opened('flour', here, '03:00')).outcome).toMatchObject({ alikeHeld: [far], trouble: null });
    expect((await opened('almond', almond, '03:01')).outcome.alikeHeld).toEqual([]);
    expect(await listed()).toEqual(
      expect.arrayContaining([
        [here, [far], null],
        [almond, [], null],
      ]),
    );
  });

  it('is said when it is weighed in', async () => {
    expect(await weighed('04')).toEqual([
      [[far], null],
      [[], null],
    ]);
  });

  it('is said no more once the other was freed', async () => {
    const { caller } = b.lead;
    const lifted = { kind: 'hold-lifted', payload: { hold }, at: at('05:00'), words: { why: 'looked at, none found' } } as const;
    const entry = await caller.signed(b.house.rawEntry(lifted));
    expect(await there.send([entry])).toMatchObject([{ as: 'recorded' }]);
    expect(await weighed('06')).toEqual([
      [[], null],
      [[], null],
    ]);
    expect((await listed()).map(([, alike]) => alike)).toEqual([[], []]);
  });
});
