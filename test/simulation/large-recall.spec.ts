import { recallView } from '@bakehouse/contracts';
import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { Bakehouse } from '../support/bakehouse.js';
import { fillScope, customers, type LargeScope } from '../support/large-scope.js';
import { size } from '../support/size.js';

/** More than the 20 000 lots that a case could once name, where all is run. */
const about = size(500, 25_000);
let t: TestApp;
let b: Bakehouse;
let scope: LargeScope;
beforeAll(async () => {
  t = await startTestApp();
  b = await Bakehouse.found(t);
  scope = await connected(t.database.ownerUrl, (owner) => fillScope(owner, b.house.organisation, b.site, about));
});
afterAll(() => t.close());

it('a flour in a season of a large house is recalled: all that came of it is in the case and held until it left, and each customer is on the list', async () => {
  const recall = b.newId();
  const asked = { id: recall, suspect: [scope.flour], hazard: 'physical', hazardName: 'glass', practice: false, said: 'the mill rang' };
  const opened = recallView.parse((await b.lead.caller.post('/recalls', asked).expect(200)).body);
  expect([opened.scopeLots, opened.trace.lots.length]).toEqual([scope.lots, scope.lots]);
  expect(opened.trace.lots.every((l) => l.certain)).toBe(true);
  const shown = recallView.parse((await b.lead.caller.get(`/recalls/${recall}`).expect(200)).body);
  expect(shown.changedSince).toEqual({ added: [], gone: [], notHeld: [] });
  // what was sent to the last piece and what was divided to the last gram is gone, and everything else is not: so fillScope wrote it
  expect(shown.held).toBe(scope.lots - scope.sent - scope.doughs);
  expect(shown.trace.ends).toHaveLength(scope.sent);
  expect(new Set(shown.trace.contacts.map((c) => c.party)).size).toBe(Math.min(customers, scope.doughsSent));
  const paper = await b.lead.caller.get(`/recalls/${recall}/papers/recall.xlsx`).buffer(true).expect(200);
  expect(paper.headers['content-type']).toContain('spreadsheet');
});
