import { afterAll, beforeAll, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { signOn } from '../support/people.js';

// 01:30 on 26 November in Auckland: where the day starts at 03:00, still the 25th.
const clock = new SettableClock('2026-11-25T12:30:00Z');
let t: TestApp;
let b: Bakehouse;
let recall: string;
beforeAll(async () => {
  t = await startTestApp({ clock });
  b = await Bakehouse.found(t, { zone: 'Pacific/Auckland', dayStarts: '03:00' });
  const suspect = [await b.delivered('cream', '2026-11-25T12:00:00Z', {})];
  recall = b.newId();
  const body = { id: recall, suspect, hazard: 'microbiological', hazardName: 'Listeria', practice: true, said: 'the dairy rang' };
  await b.lead.caller.post('/recalls', body).expect(200);
});
afterAll(() => t?.close());

it.each([
  ['2026-11-25', '2026-11-25', 200],
  ['2026-11-26', '2026-11-26', 403],
  ['2026-11-25', null, 200],
])('an inspector for the days from %s to %s gets, of a case opened before the day starts: %i', async (from, until, status) => {
  const { person, pin } = await b.house.join('Ina Spector', []);
  await b.house.decide({ kind: 'access-given', payload: { person, sites: [b.site], from, until, expires: '2026-11-27T00:00:00Z' } });
  const inspector = await signOn(t, b.house.organisation, person, pin);
  await inspector.get(`/recalls/${recall}/papers/recall.json`).expect(status);
});
