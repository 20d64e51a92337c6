import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';
import { Hand } from '../support/hand.js';
import { nutsWeek } from '../support/nuts-week.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';

const clock = new SettableClock('2026-11-25T14:00:00Z');
let t: TestApp;
let b: Bakehouse;
let recall: string;
beforeAll(async () => {
  t = await startTestApp({ clock });
  b = await Bakehouse.found(t);
  const { almond } = await nutsWeek(b);
  recall = b.newId();
  const body = { id: recall, suspect: [almond], hazard: 'microbiological', hazardName: 'Salmonella', practice: false };
  await b.lead.caller.post('/recalls', body).expect(200);
});
afterAll(() => t.close());

// Numbers set aside for fiction.
const office = { name: 'District food office', phone: '01632 960190', outOfHours: '01632 960191' };
const details = async () => (await b.lead.caller.get(`/sites/${b.site}/details`).expect(200)).body;
const text = async (path: string): Promise<string> =>
  (await pagesOf((await fileFrom(b.lead.caller, path)).bytes)).map((p) => p.text).join(' ');
const write = (when: string, phone: string) =>
  new Hand(b.house, b.house.administrator).record(
    'site-described',
    { registration: 'FB 10442', authority: { ...office, phone } },
    {
      at: at(when),
      words: { address: '3 Mill Lane', phone: '01632 960120' },
    },
  );

describe('where a site is, and its authority', () => {
  it('are not on record until somebody writes them down: each paper leaves room and says so', async () => {
    expect(await details()).toEqual({ address: null, phone: null, registration: null, authority: null, since: null });
    expect(await text(`/recalls/${recall}/papers/contacts.pdf`)).toMatch(/The authority, first Not on record for Mill Lane/);
    expect(await text(`/sites/${b.site}/inspection/pack.pdf?from=2026-11-25&until=2026-11-25`)).toContain('Authority not on record');
  });

  it('stand on the case, the contact list, the authority’s sheet and the pack, the newest of them', async () => {
    await write('05:00', '01632 960199');
    await write('06:00', office.phone);
    expect(await details()).toMatchObject({ address: '3 Mill Lane', registration: 'FB 10442', authority: office });
    const { body } = await b.lead.caller.get(`/recalls/${recall}`).expect(200);
    expect(body.sites).toEqual([expect.objectContaining({ site: b.site, siteName: 'Mill Lane', authority: office })]);
    const contacts = await text(`/recalls/${recall}/papers/contacts.pdf`);
    for (const said of [office.name, office.phone, office.outOfHours]) expect(contacts).toContain(said);
    expect(contacts).not.toContain('960199');
    expect(await text(`/recalls/${recall}/papers/recall.pdf`)).toContain('3 Mill Lane, registered as FB 10442');
    const pack = await text(`/sites/${b.site}/inspection/pack.pdf?from=2026-11-25&until=2026-11-25`);
    expect(pack).toContain('3 Mill Lane, 01632 960120; registered as FB 10442');
    expect(pack).toContain(office.name);
  });

  it('give a customer the house’s own number to report back to, and nobody else’s', async () => {
    const notice = await text(`/recalls/${recall}/papers/notice.pdf`);
    expect(notice.match(/\d{5} \d{6}/g)).toEqual(['01632 960120']);
  });

  it('are for those who look after the site to write down', async () => {
    expect(await b.baker.refused('site-described', { registration: null, authority: null })).toMatchObject({ problem: 'not-permitted' });
  });
});
