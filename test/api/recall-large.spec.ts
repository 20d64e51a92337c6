import { recallView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { statementsDuring } from '../support/queries-during.js';
import { toldNobody } from '../fixtures/recalls.js';

const many = 100_000;

/** A lot of flour in a season of a large house's doughs. */
describe('a case with very many lots', () => {
  const lots = 1_500;
  let t: TestApp;
  let b: Bakehouse;
  let flour: string;
  const recall = '0190a6d0-7b3c-7000-8000-0000000c0001';
  beforeAll(async () => {
    t = await startTestApp();
    b = await Bakehouse.found(t);
    flour = await b.delivered('flour', at('00:01'));
    await connected(t.database.ownerUrl, async (owner) => {
      await owner.query(
        `INSERT INTO lot (organisation, book, id, entry, seq, type, material, name, code_state, at)
         SELECT organisation, book, gen_random_uuid(), entry, seq, 'made', material, 'dough ' || n, 'own', at FROM lot, generate_series(1, $2) n
         WHERE id = $1`,
        [flour, lots],
      );
      await owner.query(
        `INSERT INTO flow (organisation, book, id, entry, seq, source, target, mg, how, type, certain, at, day)
         SELECT organisation, book, gen_random_uuid(), entry, seq, $1, id, 1000, 'weighed', 'ingredient', true, at, at::date FROM lot
         WHERE name LIKE 'dough %' AND organisation = $2`,
        [flour, b.house.organisation],
      );
    });
  });
  afterAll(() => t.close());

  /** How often what a lot comes from was looked up, of all lots at once. */
  const walked = (statements: readonly string[]): number => statements.filter((s) => /"target" = (ended|k)\.key/.test(s)).length;

  it('is opened, shown and closed, and how its lots stand is read once to show them', async () => {
    const of = { id: recall, suspect: [flour], hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    const opening = await statementsDuring(() => b.lead.caller.post('/recalls', of).expect(200));
    let body: unknown;
    const showing = await statementsDuring(async () => {
      ({ body } = await b.lead.caller.get(`/recalls/${recall}`).expect(200));
    });
    expect([walked(opening), walked(showing)]).toEqual([1, 1]);
    const view = recallView.parse(body);
    expect([view.scopeLots, view.held]).toEqual([lots + 1, lots + 1]);
    const staysOnHold = view.undecided.map((u) => u.lot);
    const words = { ...toldNobody, conclusion: 'done', why: 'to be burnt' };
    await new Hand(b.house, b.lead.caller, null).record('recall-closed', { recall, staysOnHold, notReached: [] }, { words });
  });

  it.each(['recall-closed', 'deviation-closed'] as const)('fits what %s states, and the body that states it', async (kind) => {
    const staysOnHold = Array.from({ length: many }, (_, i) => `0190a6d0-7b3c-7000-8000-${i.toString(16).padStart(12, '0')}`);
    const site = kind === 'recall-closed' ? null : b.site;
    const payload = kind === 'recall-closed' ? { recall, staysOnHold, notReached: [] } : { deviation: recall, staysOnHold };
    const entry = b.house.rawEntry({ kind, payload });
    const [result] = await new Hand(b.house, b.lead.caller, site).send([entry]);
    expect(result).toMatchObject({ as: 'refused', problem: 'signature-missing' });
    await b.lead.caller.post('/signatures', { pin: b.lead.caller.pin, entry }).expect(200);
  });
});
