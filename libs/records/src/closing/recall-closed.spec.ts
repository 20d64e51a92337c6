import { readFileSync } from 'node:fs';
import { describe, expect, it } from '@jest/globals';
import * as z from 'zod';
import type { PayloadFor } from '../kinds.js';
import { recallClosed } from './recall-closed.js';
import { lead, night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';
import { openedOn, toldNobody } from '../../../../test/fixtures/recalls.js';

const recall = uuid(0xf02);
const [cafe, school, shop] = [uuid(0xf10), uuid(0xf11), uuid(0xf12)];
type Words = Readonly<Record<string, string>>;
const by = (time: string, words: Words = {}) => ({ at: night(time), person: lead, words: { conclusion: 'done', why: 'waits', ...words } });

/** A case on a dough, whose batch went to a café, a school and the house's own shop. */
function sentOut(of: { practice?: boolean } = {}) {
  const n = oneBatch();
  n.loads.forEach((l) => n.core(l, '95.1'));
  const batch = n.countOut().id;
  const type = (party: string) => (party === shop ? ('own-shop' as const) : ('customer' as const));
  for (const party of [cafe, school, shop])
    n.book.given('party', party, {
      ...{ party, type: type(party), name: 'somebody', contactName: null, phone: null, email: null, address: null },
      ...{ vulnerable: false, unattended: false, since: '2026-11-01T00:00:00.000Z' },
    });
  const send = (customer: string, time: string) =>
    n.book.record(
      'sent-out',
      {
        ...{ channel: customer === shop ? 'own-shop' : 'dispatch', customer, unattended: false, until: null },
        lines: [{ lots: [batch], quantity: { figure: '3', unit: 'piece' }, how: 'counted' }],
      },
      { at: night(time) },
    );
  for (const customer of [cafe, school, shop]) send(customer, '06:00');
  openedOn(n.book, recall, n.make, { ...of, at: night('06:30') });
  const call = (party: string, answer: PayloadFor<'recall-contact-made'>['answer'], time: string) =>
    n.book.record('recall-contact-made', { recall, party, answer, piecesHeld: null }, { at: night(time) });
  const notify = (to: 'authority' | 'public') =>
    n.book.record('recall-notified', { recall, to, how: 'other' }, { at: night('06:50'), person: lead });
  const staysOnHold = of.practice ? [] : [batch];
  const payload = (notReached: string[]) => ({ recall, staysOnHold, notReached });
  const refused = (notReached: string[], words: Words) => n.book.refusal('recall-closed', payload(notReached), by('07:00', words));
  const close = (notReached: string[], words: Words = {}) => n.book.record('recall-closed', payload(notReached), by('07:00', words));
  return { book: n.book, send, call, notify, refused, close, payload };
}

describe('a real case that is closed', () => {
  it('says why the authority is not recorded as told, and why no notice to the public is', () => {
    const c = sentOut();
    [cafe, school].forEach((party) => c.call(party, 'told', '06:40'));
    const { whyAuthorityNotTold, whyNoNotice } = toldNobody;
    expect(c.refused([], { whyNoNotice })).toMatchObject({ problem: 'malformed', field: 'words.whyAuthorityNotTold' });
    expect(c.refused([], { whyAuthorityNotTold })).toMatchObject({ field: 'words.whyNoNotice' });
    c.notify('authority');
    expect(c.refused([], { whyAuthorityNotTold })).toMatchObject({ field: 'words.whyNoNotice' });
    expect(c.close([], { whyNoNotice }).outcome).toMatchObject({ notTold: ['public'], notReached: [] });
    expect(c.book.all('recallClosed')).toMatchObject([
      { notTold: ['public'], whyAuthorityNotTold: null, whyNoNotice, whyNotReached: null },
    ]);
    expect(c.book.rebuilt()).toEqual(c.book.snapshot());
  });

  it('is asked for nothing where both were told and everybody was reached', () => {
    const c = sentOut();
    [cafe, school].forEach((party) => c.call(party, 'told', '06:40'));
    (['authority', 'public'] as const).forEach(c.notify);
    expect(c.close([]).outcome).toMatchObject({ notTold: [], notReached: [] });
  });

  it('states every customer whom no call reached, and why; a shop of the house is none', () => {
    const c = sentOut();
    (['authority', 'public'] as const).forEach(c.notify);
    c.call(cafe, 'not-reached', '06:40');
    c.call(school, 'message-left', '06:41');
    c.call(school, 'told', '06:45');
    const whyNotReached = 'the café is closed until Monday';
    expect(c.refused([], { whyNotReached })).toMatchObject({
      ...{ problem: 'customers-not-reached', field: 'payload.notReached', acceptable: 'the 1 customer whom no call has reached' },
    });
    expect(c.refused([cafe], {})).toMatchObject({ problem: 'malformed', field: 'words.whyNotReached' });
    expect(c.refused([cafe, school], { whyNotReached })).toMatchObject({
      ...{ problem: 'unacceptable-value', field: 'payload.notReached' },
      acceptable: expect.stringMatching(/load the case again and leave out the 1 customer told since/),
    });
    expect(c.close([cafe], { whyNotReached }).outcome).toMatchObject({ notTold: [], notReached: [cafe] });
    expect(c.book.all('recallClosed')).toMatchObject([{ notReached: [cafe], whyNotReached }]);
  });

  it('asks for a customer who was told before more of it went there, until they are rung again', () => {
    const c = sentOut();
    (['authority', 'public'] as const).forEach(c.notify);
    [cafe, school].forEach((party) => c.call(party, 'told', '06:40'));
    c.send(cafe, '06:45');
    expect(c.refused([], {})).toMatchObject({ problem: 'customers-not-reached', field: 'payload.notReached' });
    c.call(cafe, 'told', '06:50');
    expect(c.close([]).outcome).toMatchObject({ notReached: [] });
  });

  it('keeps what was said of that time where its closing is corrected', () => {
    const c = sentOut();
    const words = { ...toldNobody, whyNotReached: 'nobody was there' };
    const { id } = c.close([cafe, school], words);
    c.call(cafe, 'told', '07:10');
    c.notify('authority');
    const again = { ...by('07:00', { ...words, conclusion: 'one dough', reason: 'was left out' }), corrects: id };
    expect(c.book.record('recall-closed', c.payload([cafe, school]), again).outcome).toMatchObject({
      notTold: ['authority', 'public'],
      notReached: [cafe, school],
    });
  });
});

describe('a case that is closed as a practice', () => {
  it('is asked for none of it, and takes what is practised', () => {
    const c = sentOut({ practice: true });
    expect(c.close([]).outcome).toEqual({ staysOnHold: [], notTold: null, notReached: null });
  });
});

describe('a case that was closed before this was asked', () => {
  it.each([
    ['recall-closed.v1', 1],
    ['recall-closed.v2.o2', 2],
  ])('stays as it was: %s, where nobody was asked', (name, version) => {
    const file = new URL(`../../../../test/reference/golden/entries/${name}.json`, import.meta.url);
    const { bytes } = z.object({ bytes: z.string() }).parse(JSON.parse(readFileSync(file, 'utf8')));
    const { input, outcome } = z.object({ input: z.record(z.string(), z.unknown()), outcome: z.unknown() }).parse(JSON.parse(bytes));
    const read = recallClosed.readStored({ ...input, words: {} });
    if (!read.ok) throw new Error(`not read: ${JSON.stringify(read)}`);
    expect(read.payload).toMatchObject({ notReached: [] });
    expect(read.outcomeOf(outcome, version)).toMatchObject({ notTold: null, notReached: null });
  });
});
