import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { InspectionView } from '@bakehouse/contracts';
import type { SentEnvelope } from '@bakehouse/kernel';
import { outcomeOf } from '@bakehouse/records';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { enrolledTablet, type Tablet } from '../support/people.js';
import { verified } from '../support/verified.js';

const hour = 3_600_000;

/** Two tablets in one night: the table's clock is three hours fast, the oven's is right. */
describe('a tablet whose clock is three hours fast', () => {
  const clock = new SettableClock('2026-11-25T03:00:00Z');
  let t: TestApp;
  let b: Bakehouse;
  let oven: Tablet;
  let atOven: Hand;
  beforeAll(async () => {
    t = await startTestApp({ clock });
    b = await Bakehouse.found(t);
    oven = await enrolledTablet(b.house, 'The oven');
    atOven = new Hand(b.house, await oven.tap(b.baker.caller.person));
  });
  afterAll(() => t.close());

  const fast = (entry: SentEnvelope, clockErrorMs: number | null = 3 * hour): SentEnvelope => ({
    ...entry,
    device: { id: b.tablet.id, seq: 1, clockErrorMs },
  });
  const stage = (make: string, way: 'in' | 'out', time: string): SentEnvelope =>
    b.house.entry({
      kind: 'stage-passed',
      payload: { subjects: [{ type: 'make', id: make }], place: b.place('prover'), step: 'prove', way },
      at: at(time),
    });
  const times = async (make: string) =>
    (await b.night()).stage
      .filter((s) => s.subject === make)
      .map((s) => `${s.way} ${s.at.slice(11, 16)}`)
      .sort();

  it.each([
    ['as it happened', (made: string) => [fast(stage(made, 'in', '05:00')), stage(made, 'out', '02:40')] as const],
    ['the other way round', (made: string) => [stage(made, 'out', '02:40'), fast(stage(made, 'in', '05:00'))] as const],
  ])('has its records in their place among another’s, arriving %s', async (_how, entries) => {
    const make = await b.begun('white', at('01:50'));
    const sent = entries(make);
    for (const entry of sent) {
      const by = entry.device.id === b.tablet.id ? b.baker : atOven;
      expect(await by.send([entry])).toMatchObject([{ as: 'recorded' }]);
    }
    expect(await times(make)).toEqual(['in 02:00', 'out 02:40']);
  });

  it('measures how long it was by true time, and keeps what its clock said in the record', async () => {
    const make = await b.begun('white', at('01:50'));
    await b.baker.send([fast(stage(make, 'in', '05:00'))]);
    const [out] = await atOven.send([stage(make, 'out', '02:40')]);
    expect(out?.as === 'recorded' ? outcomeOf('stage-passed', out.outcome) : out).toEqual({ seconds: [40 * 60] });
  });

  it('loses nothing where nobody knows its error: taken, as of unknown time', async () => {
    const make = await b.begun('white', at('01:50'));
    const unknown = fast(stage(make, 'in', '05:00'), null);
    expect(await b.baker.send([unknown])).toMatchObject([{ as: 'recorded' }]);
    expect(await times(make)).toEqual(['in 03:00']);
    const reading = fast(
      b.house.entry({ kind: 'reading-taken', payload: b.reading('bloomer-core', 'make', make, '96'), at: at('05:10') }),
      null,
    );
    expect(await b.baker.send([reading])).toMatchObject([{ as: 'recorded' }]);
    const { body } = await b.lead.caller.get(`/sites/${b.site}/inspection?from=2026-11-25&until=2026-11-25`).expect(200);
    const view: InspectionView = body;
    expect(JSON.stringify(view)).toContain('"precision":"unknown"');
  });

  it('comes out the same from the stored bytes alone', async () => {
    expect((await verified(t, b.house)).faults).toEqual([]);
  });
});
