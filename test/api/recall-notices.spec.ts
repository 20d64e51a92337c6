import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { RecallView } from '@bakehouse/contracts';
import { PaperOrders } from '../../apps/api/src/papers/orders/orders.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { nutsWeek } from '../support/nuts-week.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';

let t: TestApp;
let b: Bakehouse;
let recall: string;
let contacts: RecallView['trace']['contacts'];
beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock(at('14:00')) });
  b = await Bakehouse.found(t);
  const { almond } = await nutsWeek(b);
  // Numbers set aside for fiction.
  const words = { address: '3 Mill Lane', phone: '01632 960120' };
  await new Hand(b.house, b.house.administrator).record(
    'site-described',
    { registration: null, authority: null },
    { at: at('05:00'), words },
  );
  recall = b.newId();
  const body = {
    id: recall,
    suspect: [almond],
    hazard: 'microbiological',
    hazardName: 'Salmonella',
    practice: false,
    said: 'Garden café rang',
  };
  ({ contacts } = ((await b.lead.caller.post('/recalls', body).expect(200)).body as RecallView).trace);
});
afterAll(() => t.close());

/** Ends when every paper that was ordered before it is made. */
const allMade = (): Promise<void> =>
  new Promise((made) => {
    t.app.get(PaperOrders).order({ organisation: 'nobody’s', person: 'nobody' }, () => {
      made();
      return Promise.resolve({ bytes: Buffer.from(''), name: '' });
    });
  });
async function ordered(query: string): Promise<string> {
  const { id } = (await b.lead.caller.get(`/recalls/${recall}/papers/order?${query}`).expect(202)).body as { id: string };
  await allMade();
  const { bytes } = await fileFrom(b.lead.caller, `/papers/${id}/file`);
  return (await pagesOf(bytes))
    .map((p) => p.text)
    .join(' ')
    .replace(/\s+/g, ' ');
}
const codesOf = (some: RecallView['trace']['contacts']): string[] => [
  ...new Set(some.flatMap((c) => c.lines.flatMap((l) => l.code ?? []))),
];

describe('the notice to one customer', () => {
  it('says what they had, why, what to do with it and whom to ring, and nothing about another customer', async () => {
    expect(contacts.length).toBeGreaterThan(4);
    for (const contact of contacts) {
      const text = await ordered(`part=customer&customer=${contact.party}`);
      for (const words of [
        'URGENT: FOOD RECALL',
        `For ${contact.name}. Reason: Salmonella`,
        'Do not sell',
        'Keep it apart',
        'Tell us today how much is left',
      ])
        expect(text).toContain(words);
      for (const { name, code, pieces } of contact.lines) expect(text).toMatch(new RegExp(`${name} ${code} .*${pieces} pieces`));
      expect(codesOf(contacts).filter((code) => text.split(' ').includes(code))).toEqual(
        codesOf(contacts).filter((code) => codesOf([contact]).includes(code)),
      );
      // What the house rings itself, and the supplier's lot, are not theirs to read either.
      const others = contacts.filter((c) => c.party !== contact.party).flatMap((c) => [c.name ?? '?', c.phone ?? '?']);
      expect([...others, 'A77', 'Garden café rang'].filter((words) => text.replace(`For ${contact.name}`, '').includes(words))).toEqual([]);
      expect(text.match(/\d{5} \d{6}/g)).toEqual(['01632 960120']);
      expect([...text.matchAll(/(\d+) pieces/g)].map(([, n]) => Number(n)).sort()).toEqual(contact.lines.map((l) => l.pieces).sort());
      expect(text).toMatch(/[Aa] competent person|validated/);
    }
  });

  it('is of one customer, who is in the case', async () => {
    await b.lead.caller.get(`/recalls/${recall}/papers/order?part=customer`).expect(400);
    await b.lead.caller.get(`/recalls/${recall}/papers/order?part=public&customer=${contacts[0]?.party}`).expect(400);
    const { id } = (await b.lead.caller.get(`/recalls/${recall}/papers/order?part=customer&customer=${b.newId()}`).expect(202)).body as {
      id: string;
    };
    await allMade();
    await b.lead.caller.get(`/papers/${id}/file`).expect(404);
  });
});

describe('the notice for the public', () => {
  it('says which food, how and when it was sold, what is wrong, what to do and whom to ask, and names no customer and no amount', async () => {
    const text = await ordered('part=public');
    for (const words of [
      'FOOD RECALL: DO NOT EAT',
      'almond tartlet',
      '19-tartlet',
      'in our shop',
      'on our stall',
      'in places that we deliver to',
      'given away',
    ])
      expect(text).toContain(words);
    expect(text).toMatch(/from 19 Nov 2026 to 25 Nov 2026/);
    for (const words of [
      'Salmonella',
      'may make people ill',
      'Bring it back',
      'ask a doctor',
      'ring the emergency number',
      'Show it to your food-safety authority',
      '3 Mill Lane',
    ])
      expect(text).toContain(words);
    expect(text.match(/\d{5} \d{6}/g)).toEqual(['01632 960120']);
    const named = contacts.flatMap((c) => [c.name ?? '?', c.contactName ?? '?', c.phone ?? '?']);
    expect([...named, 'A77', 'Garden café rang'].filter((words) => text.includes(words))).toEqual([]);
    expect(text).not.toMatch(/\d pieces/);
  });

  it('is marked where it is a practice', async () => {
    const real = recall;
    recall = b.newId();
    const [lot] = (await b.lead.caller.get(`/recalls/${real}`).expect(200)).body.trace.suspects as string[];
    const body = { id: recall, suspect: [lot], hazard: 'allergen', hazardName: 'nuts', practice: true };
    await b.lead.caller.post('/recalls', body).expect(200);
    for (const part of ['part=public', `part=customer&customer=${contacts[0]?.party}`, 'part=notice']) {
      const text = await ordered(part);
      expect(text).toContain('PRACTICE. NOT A REAL RECALL');
      expect(text).toMatch(/PRACTICE, DO NOTHING\. In a real case: (STOP\. )?Do not/); // what is told to be done is read alone, too
    }
    expect(await ordered('part=contacts')).toMatch(/Say: “This is a practice, do nothing with any food\./);
    recall = real;
  });
});
