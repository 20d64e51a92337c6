import { kinds } from '@bakehouse/records';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { OneTruth } from '../support/one-truth.js';
import { mulberry } from '../support/seeded.js';
import { size } from '../support/size.js';
import { verified } from '../support/verified.js';
import { History } from './history/history.js';

const now = '2026-11-25T09:00:00.000Z';
const [seeds, rounds] = [size(1, 8), size(6, 12)];

const facts: ReadonlySet<string> = new Set(
  kinds.flatMap((k) => (k.type === 'fact' && k.permission === 'record' && k.name !== 'released-by-rule' ? [k.name] : [])),
);

const byItself: ReadonlySet<string> = new Set(['bodies-withheld', 'words-erased', 'pin-set']);

/** Random histories over every kind, through the door, by tablets and office at once; what the house says afterwards. */
describe.each(Array.from({ length: seeds }, (_, i) => i + 1))('a house whose people record everything there is, seed %i', (seed) => {
  let t: TestApp;
  let b: Bakehouse;
  let history: History;
  /** All kinds but those that only the service records: by a command at the end, and with each PIN that is set. */
  const missing = () => kinds.map((k) => k.name).filter((name) => !byItself.has(name) && !history.kinds.has(name));
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
    history = await History.begin(b, mulberry(seed));
    // Who is first is chance: what was refused each time, such as access for somebody who has left, is tried for some rounds more.
    for (let i = 0; i < rounds || (i < 4 * rounds && missing().length > 0); i += 1)
      await Promise.all([history.round(), ...(i === 2 ? [history.openCase()] : [])]);
    await Promise.all([history.end(), history.withhold()]);
  });
  afterAll(() => t.close());

  it('takes every fact, bad news and late ones too, unless what it is about was withdrawn meanwhile', () => {
    const refused = history.answered.flatMap(({ kind, fresh, result }) =>
      fresh && facts.has(kind) && result.as !== 'recorded' ? [`${kind}: ${result.as === 'refused' ? result.problem : result.as}`] : [],
    );
    expect(refused.filter((one) => !/: unknown-(make|run|load|batch|subject)$/.test(one))).toEqual([]);
    const recorded = history.answered.filter((a) => a.result.as === 'recorded');
    expect(recorded.length).toBeGreaterThan(rounds * 30);
    expect(recorded.filter((a) => !a.fresh && a.kind !== 'entry-withdrawn').length).toBeGreaterThan(rounds * 2);
    expect(recorded.filter((a) => a.kind === 'entry-withdrawn').length).toBeGreaterThan(rounds);
  });

  it('has recorded every kind that is declared', () => {
    expect([missing(), history.kinds.has('bodies-withheld')]).toEqual([[], true]);
  });

  it('verifies, and its rows are those of a rebuild of the whole book', async () => {
    expect((await verified(t, b.house)).faults).toEqual([]);
  });

  it('says the same of every lot on every screen, list and paper', async () => {
    const truth = await OneTruth.of(b, now);
    const tablet = await truth.isTheTablets();
    await truth.isTheLists();
    await truth.isTheOfficersAndTheCounters(tablet);
    expect(history.cases).toHaveLength(1);
    for (const { id, lot } of history.cases) {
      await truth.isTheTraces(lot);
      await truth.isTheCases(id);
    }
  });
});
