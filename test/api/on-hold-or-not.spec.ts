import { lookupOf, openDeviations } from '@bakehouse/views';
import { namesFood, subjectType } from '@bakehouse/records';
import { openThings } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';

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
    const manager = new Hand(b.house, b.house.administrator);
    const { id: vessel } = await manager.record('place-in-use', { name: 'Flour bin', type: 'vessel', within: null });
    const material = b.material('flour');
    const added = [{ material, lot, quantity: g('5000'), how: 'weighed' as const }];
    const filled = { vessel, material, kept: null, keptHow: 'weighed' as const, added };
    const { id: content } = await b.baker.record('vessel-topped-up', filled, { at: at('05:20') });
    Object.assign(subjects, { vessel, content, lot, make, run, load, batch, delivery, instrument, place: b.place('prover'), site: b.site });
  });
  afterAll(() => t.close());
  const subject = (of: string): string => subjects[of] ?? '';

  const report = { class: 'ccp', holds: true } as const;
  const words = { what: 'glass broke' };
  const shownAs = async (deviation: string) =>
    openDeviations(lookupOf(await b.night(), now, 'Europe/London', b.site)).find((d) => d.id === deviation)?.state;
  const heldBy = async (deviation: string): Promise<string[]> => {
    const { held } = openThings.parse((await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body);
    return held.filter((h) => h.concerns.some((c) => c.id === deviation)).map((h) => h.lot);
  };

  it.each(subjectType.options.filter(namesFood))('about a %s puts the food on hold, and every screen says so', async (type) => {
    const { id } = await b.baker.record(
      'deviation-reported',
      { subjectType: type, subject: subject(type), ...report },
      { at: at('06:00'), words },
    );
    expect([await shownAs(id), (await heldBy(id)).length > 0]).toEqual(['holds', true]);
  });

  it.each([...subjectType.options.filter((type) => !namesFood(type)), 'vessel'] as const)(
    'about a %s is refused, with what to do instead; without it, it is recorded and no screen says “on hold”',
    async (of) => {
      const about = { subjectType: of === 'vessel' ? 'place' : of, subject: subject(of), class: 'ccp' } as const;
      const refused = await b.baker.refused('deviation-reported', { ...about, holds: true }, { at: at('06:00'), words });
      expect(refused).toMatchObject({ problem: 'unacceptable-value', field: 'payload.holds' });
      expect(refused.acceptable).toMatch(/put the food on hold by its name/);
      const { id } = await b.baker.record('deviation-reported', { ...about, holds: false }, { at: at('06:00'), words });
      expect([await shownAs(id), await heldBy(id)]).toEqual(['open', []]);
    },
  );

  it('about the content of a vessel puts that on hold: it is a lot with a name', async () => {
    const about = { subjectType: 'lot', subject: subject('content'), ...report } as const;
    const { id } = await b.baker.record('deviation-reported', about, { at: at('06:00'), words });
    expect(await heldBy(id)).toEqual([subject('content')]);
  });
});
