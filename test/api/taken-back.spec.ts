import type { InspectedDeviation, InspectionView } from '@bakehouse/contracts';
import { lookupOf, openDeviations, takenBackText } from '@bakehouse/views';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';

const day = '2026-11-25';
const now = `${day}T14:00:00.000Z`;
const reason = { reason: 'typed wrong' };

/** What a record told may be taken back; the deviation that it opened is a person's to close. It says on every screen and paper what became of its record. */
describe('a deviation whose record was withdrawn or corrected', () => {
  let t: TestApp;
  let b: Bakehouse;
  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock(now) });
    b = await Bakehouse.found(t);
  });
  afterAll(() => t.close());

  const page = async (): Promise<InspectionView> => (await b.baker.caller.get(`/sites/${b.site}/inspection`).expect(200)).body;
  const inspected = async (id: string): Promise<InspectedDeviation | undefined> => (await page()).deviations.find((d) => d.id === id);
  const atTheTable = async (id: string) => openDeviations(lookupOf(await b.night(), now, 'Europe/London', b.site)).find((d) => d.id === id);
  /** What the officer's page says, and the table where it is open there: the same. */
  const said = async (id: string): Promise<string | null> => {
    const [shown, seen] = [await atTheTable(id), await inspected(id)];
    if (!seen) throw new Error('it is not on the page of the period any more');
    if (seen.closed === null) expect(shown && takenBackText(shown.takenBack)).toBe(takenBackText(seen.takenBack));
    return takenBackText(seen.takenBack);
  };

  /** A reading of a make's dough outside its limit, and the deviation that it opened. */
  const outside = async (): Promise<{ reading: string; make: string; deviation: string }> => {
    const make = await b.begun('white', at('02:30'));
    const { id: reading } = await b.baker.record('reading-taken', b.reading('bloomer-core', 'make', make, '82.5'), { at: at('02:50') });
    const deviation = (await b.night()).deviation.find((d) => d.subject === make)?.id ?? '';
    return { reading, make, deviation };
  };
  const correct = (of: { reading: string; make: string }, value: string) =>
    b.baker.record('reading-taken', b.reading('bloomer-core', 'make', of.make, value), {
      at: at('02:50'),
      corrects: of.reading,
      words: reason,
    });
  const withdraw = (record: string) => b.baker.record('entry-withdrawn', {}, { corrects: record, words: reason });

  it('says nothing while the record stands, also corrected to something that is outside too', async () => {
    const of = await outside();
    expect(await said(of.deviation)).toBeNull();
    await correct(of, '83.1');
    expect(await said(of.deviation)).toBeNull();
  });

  const within = 'The record it came from was corrected: 94.4 °C, within the limit';
  const withdrawn = 'The record it came from was withdrawn';

  it('says what a corrected reading says now, or that it was withdrawn, whichever the record is now', async () => {
    const of = await outside();
    await correct(of, '94.4');
    expect(await said(of.deviation)).toBe(within);
    await withdraw(of.reading);
    expect(await said(of.deviation)).toBe(withdrawn);
    await correct(of, '94.4');
    expect(await said(of.deviation)).toBe(within);
    await correct(of, '80.2');
    expect(await said(of.deviation)).toBeNull();
  });

  it('stays open, and says the same whether it was answered and closed before or after', async () => {
    const [early, late] = [await outside(), await outside()];
    const close = async ({ deviation }: { deviation: string }): Promise<void> => {
      await b.baker.record('corrective-action-taken', { deviation, type: 'adjusted' }, { at: at('03:00') });
      const staysOnHold = (await atTheTable(deviation))?.undecided.map((l) => l.id) ?? [];
      const words = { review: 'looked at', ...(staysOnHold.length > 0 ? { why: 'to be baked again' } : {}) };
      await b.lead.record('deviation-closed', { deviation, staysOnHold }, { words });
    };
    await close(early);
    await withdraw(early.reading);
    await withdraw(late.reading);
    expect((await inspected(late.deviation))?.closed).toBeNull();
    await close(late);
    const both = await Promise.all([early, late].map(({ deviation }) => inspected(deviation)));
    expect(both.map((d) => [d?.takenBack, d?.closed !== null])).toEqual([
      [{ as: 'withdrawn', says: null }, true],
      [{ as: 'withdrawn', says: null }, true],
    ]);
  });

  it('says it of a reading not taken, a report and a use as well', async () => {
    const before = new Set((await page()).deviations.map((d) => d.id));
    const opened = async (): Promise<string> => {
      const found = (await page()).deviations.filter((d) => !before.has(d.id)).map((d) => d.id);
      for (const id of found) before.add(id);
      expect(found).toHaveLength(1);
      return found[0] ?? '';
    };
    const make = await b.begun('white', at('03:30'));
    const missed = { subjectType: 'make', subject: make, answer: 'not-done' } as const;
    const { id: notTaken } = await b.baker.record('reading-not-taken', { ...missed, point: b.point('bloomer-core') }, { at: at('03:40') });
    const ofMissed = await opened();
    const elsewhere = { at: at('03:40'), corrects: notTaken, words: reason };
    await b.baker.record('reading-not-taken', { ...missed, point: b.point('dough') }, elsewhere);
    expect(await said(ofMissed)).toBe('The record it came from was corrected: point: dough');

    const what = { at: at('03:45'), words: { what: 'glass broke' } };
    const { id: report } = await b.baker.record(
      'deviation-reported',
      { subjectType: 'make', subject: make, class: 'ccp', holds: true },
      what,
    );
    const ofReport = await opened();
    await withdraw(report);
    expect(await said(ofReport)).toBe(withdrawn);

    const [bad, good] = [await b.delivered('flour', at('01:00')), await b.delivered('flour', at('01:05'))];
    const because = { at: at('01:10'), words: { because: 'weevils' } };
    await b.baker.record('hold-placed', { lot: bad, deviation: null }, because);
    const other = await b.begun('white', at('04:00'));
    const weighed = (lot: string) => ({ make: other, lines: [b.into('flour', '5600', lot)] });
    const { id: weighing } = await b.baker.record('weighed-in', weighed(bad), { at: at('04:01') });
    const ofUse = await opened();
    await b.baker.record('weighed-in', weighed(good), { at: at('04:01'), corrects: weighing, words: reason });
    expect(await said(ofUse)).toMatch(/^The record it came from was corrected: lines, .*lot: .*flour/);
    await withdraw(weighing);
    expect(await said(ofUse)).toBe(withdrawn);
    await b.baker.record('weighed-in', weighed(bad), { at: at('04:01'), corrects: weighing, words: reason });
    expect(await said(ofUse)).toBeNull();
  });
});
