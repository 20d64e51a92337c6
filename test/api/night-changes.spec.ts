import { withChanges, type NightAnswer } from '@bakehouse/offline';
import { nightView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { House, type Caller } from '../support/people.js';
import { roomReading } from '../support/payloads.js';
import { statementsDuring } from '../support/queries-during.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
let t: TestApp;
let house: House;
let baker: Caller;
beforeAll(async () => {
  t = await startTestApp({ clock });
  house = await House.found(t);
  baker = await house.signedOn('Bo Baker', ['baker']);
});
afterAll(() => t.close());

const night = async (since?: string): Promise<NightAnswer> => {
  const { body } = await baker
    .get(`/sites/${house.site}/night${since === undefined ? '' : `?since=${encodeURIComponent(since)}`}`)
    .expect(200);
  return nightView.parse(body);
};
const reading = () => house.entry({ kind: 'reading-taken', payload: roomReading(house.site) });
const readings = (n: number) => Array.from({ length: n }, reading);
const send = async (entries: readonly unknown[]): Promise<void> => {
  const { body } = await baker.post(`/sites/${house.site}/entries`, entries).expect(200);
  expect(body.filter((r: { as: string }) => r.as !== 'recorded')).toEqual([]);
};
const on = (held: NightAnswer, came: NightAnswer) => withChanges(held, { changed: true, value: came, tag: null });

describe('a device that holds a night', () => {
  it('is sent what came since, and has the whole night with it', async () => {
    await send(readings(30));
    const held = await night();
    expect([held.since, held.rows['reading']?.length]).toEqual([null, 30]);
    await send(readings(2));
    const came = await night(held.version);
    expect([came.since, Object.keys(came.rows), came.rows['reading']?.length, came.gone]).toEqual([held.version, ['reading'], 2, {}]);
    expect(on(held, came)?.rows).toEqual((await night()).rows);
  });

  it('is told what was withdrawn, and what a correction changed', async () => {
    const [wrong, misread] = [reading(), reading()];
    await send([wrong, misread]);
    const held = await night();
    await send([
      house.entry({ kind: 'entry-withdrawn', payload: {}, corrects: wrong.id, words: { reason: 'taken twice' } }),
      house.entry({ kind: 'reading-taken', payload: roomReading(house.site, '24.5'), corrects: misread.id, words: { reason: 'misread' } }),
    ]);
    const came = await night(held.version);
    expect(came.since).toBe(held.version);
    expect(Object.values(came.gone).flat().length).toBeGreaterThan(0);
    expect(on(held, came)?.rows).toEqual((await night()).rows);
  });

  it('is sent everything where what it holds is not known here', async () => {
    const whole = await night();
    expect(await night('nothing-that-was-ever-answered')).toEqual(whole);
    await baker.get(`/sites/${house.site}/night?since=${'x'.repeat(41)}`).expect(400);
  });

  it('is answered from one piece of work, however many ask at once', async () => {
    const one = await statementsDuring(async () => {
      await send(readings(1));
      await night();
    });
    const many = await statementsDuring(async () => {
      await send(readings(1));
      await Promise.all(Array.from({ length: 6 }, () => night()));
    });
    const works = (statements: readonly string[]): number => statements.filter((s) => s.includes("'reading' AS collection")).length;
    expect([works(one), works(many)]).toEqual([1, 1]);
  });

  it('is told what time it is now, though the work was done a moment before: it measures its own clock by that', async () => {
    await night();
    clock.set(new Date(clock.now().getTime() + 1_500));
    expect((await night()).asOf).toBe(clock.now().toISOString());
  });
});
