import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { House, signOn, type Caller } from '../support/people.js';
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

const paths = { night: () => `/sites/${house.site}/night`, counter: () => `/counter/${house.site}?organisation=${house.organisation}` };
const asked = (path: string, tag: string) => baker.get(path).set('if-none-match', tag);
const tagOf = async (path: string): Promise<string> => (await baker.get(path).expect(200)).headers['etag'] ?? '';
const record = () =>
  baker.post(`/sites/${house.site}/entries`, [house.entry({ kind: 'reading-taken', payload: roomReading(house.site) })]).expect(200);

const signOnAgain = async (): Promise<void> => {
  await house.again();
  baker = await signOn(t, house.organisation, baker.person, baker.pin);
};

describe.each(Object.entries(paths))('an answer that the asker holds: %s', (_name, path) => {
  it('is not worked out again: one statement says who asks, one how far the books are', async () => {
    const tag = await tagOf(path());
    await asked(path(), tag).expect(304); // what the service asks for once has been asked
    const statements = await statementsDuring(async () => {
      const { text, headers } = await asked(path(), `"other", ${tag}`).expect(304);
      expect([text, headers['x-as-of'], headers['etag']]).toEqual(['', clock.now().toISOString(), tag]);
    });
    expect(statements.length).toBeLessThanOrEqual(2);
  });

  it('is made anew once anything was recorded', async () => {
    const tag = await tagOf(path());
    await record();
    const { headers } = await asked(path(), tag).expect(200);
    expect(headers['etag']).not.toBe(tag);
  });

  it('is made anew once time alone may have changed it, and when the site’s day begins', async () => {
    const tag = await tagOf(path());
    clock.set(new Date(clock.now().getTime() + 6 * 60_000));
    await asked(path(), tag).expect(200);
    const midnight = new Date(clock.now()).setUTCHours(24, 0, 0, 0);
    clock.set(new Date(midnight - 1_000));
    await signOnAgain();
    const late = await tagOf(path());
    clock.set(new Date(midnight));
    await asked(path(), late).expect(200);
  });
});

describe('the tag of a night', () => {
  it('is another for those who may do other things, and opens nothing to somebody who may no longer see it', async () => {
    const lead = await house.signedOn('Lee Dehl', ['food-safety-lead']);
    const tag = await tagOf(paths.night());
    expect((await lead.get(paths.night()).expect(200)).headers['etag']).not.toBe(tag);
    const { person, pin } = await house.join('Gone Soon', []);
    const [given = ''] = await house.decide({ kind: 'role-given', payload: { person, role: 'baker', site: house.site, until: null } });
    const held = await signOn(t, house.organisation, person, pin);
    const theirs = (await held.get(paths.night()).expect(200)).headers['etag'] ?? '';
    await house.decide({ kind: 'role-taken-away', payload: { given } });
    await held.get(paths.night()).set('if-none-match', theirs).expect(403);
  });
});
