import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { holdingDeviations, workingSetOf, type Snapshot } from '@bakehouse/records';
import { codeOf, lookupOf } from '@bakehouse/views';
import { SettableClock } from '../../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../../support/app.js';
import { at, Bakehouse, celsius, g } from '../../support/bakehouse.js';
import { Hand } from '../../support/hand.js';
import { verified } from '../../support/verified.js';

interface TracedLot {
  readonly id: string;
  readonly certain: boolean;
  readonly code: string | null;
  readonly mg: number | null;
  readonly by: { readonly from: string; readonly mg: number | null } | null;
}

/** Warm cream, and egg that is used before anybody knows its code: figures of the trade's notes, S3. */
describe('the porch', () => {
  const clock = new SettableClock('2026-11-25T06:12:00Z');
  let t: TestApp;
  let b: Bakehouse;
  let cream: string;
  let egg: string;
  let tarts: string;
  let received: Record<string, unknown>;
  let before: Snapshot;
  let after: Snapshot;
  let early: { found: unknown[]; traced: TracedLot[] };

  beforeAll(async () => {
    t = await startTestApp({ clock });
    b = await Bakehouse.found(t);
    [cream, egg] = [b.newId(), b.newId()];
    const unnamed = { code: null, codeState: 'not-known-yet' } as const;
    // Used at 06:05, found and typed at 06:10: the make is recorded after the delivery, with the earlier time.
    received = (
      await b.baker.record(
        'delivery-received',
        {
          supplier: null,
          noteNumber: null,
          photo: 'porch.jpg',
          unattended: true,
          lines: [
            b.line('cream', cream, {
              ...unnamed,
              quantity: { figure: '4', unit: 'kg' },
              temperature: { ...celsius('9.4'), measured: 'between-packs', point: b.point('chilled-in') },
            }),
            b.line('egg', egg, { ...unnamed, quantity: { figure: '3', unit: 'kg' }, asWritten: '3 × 1 kg, porch no. 2' }),
          ],
        },
        { at: at('06:10') },
      )
    ).outcome;
    tarts = await b.begun('treacle', at('06:00'));
    await b.baker.record('weighed-in', { make: tarts, lines: [b.into('egg', '540', egg)] }, { at: at('06:05') });
    const run = b.newId();
    await b.baker.record(
      'divided',
      {
        make: tarts,
        quantity: null,
        oldDough: null,
        scrap: null,
        runs: [{ run, product: b.material('tart'), heads: null, pieces: 15, scaling: g('740') }],
      },
      { at: at('06:10') },
    );
    before = await b.night();
    early = { found: (await b.baker.caller.get('/lots?words=E7731').expect(200)).body, traced: await traceOf(b, egg) };

    clock.set('2026-11-25T07:40:00Z');
    await b.signOnAgain();
    await b.lead.record('receipt-decided', { lot: cream, decision: 'refused' }, { at: at('07:40'), words: { note: 'too warm' } });

    clock.set('2026-11-25T09:15:00Z');
    await b.signOnAgain();
    await b.baker.record('lot-identified', { lot: egg, code: 'E7731', same: null, delivery: null }, { at: at('09:15') });
    after = await b.night();
  });
  afterAll(() => t.close());

  it('finds 9.4 °C between packs over 8: the cream is held at once, the egg is not', () => {
    expect(received).toMatchObject({
      lines: [
        { reading: { verdict: 'outside', holds: true, class: 'ccp', asked: { limit: { max: '8' } } } },
        { reading: null, mg: 3_000_000 },
      ],
    });
    const held = (lot: string) => holdingDeviations(workingSetOf(before), lot).map((d) => d.type);
    expect([held(cream), held(egg)]).toEqual([['limit'], []]);
    expect(before.delivery.map((d) => [d.unattended, d.photo, d.note, d.supplier])).toEqual([[true, 'porch.jpg', null, null]]);
  });

  it('has 540 g of an unnamed egg in the tarts from 06:05, before the delivery was written down', () => {
    expect(before.lot.find((l) => l.id === egg)).toMatchObject({
      type: 'placeholder',
      code: null,
      codeState: 'not-known-yet',
      quantityAsWritten: '3 × 1 kg, porch no. 2',
    });
    expect(before.flow.filter((f) => f.source === egg).map((f) => [f.target, f.mg, f.at])).toEqual([
      [tarts, 540_000, '2026-11-25T06:05:00.000Z'],
    ]);
    expect(early.found).toEqual([]);
    expect(early.traced.find((l) => l.id === egg)?.code).toBeNull();
  });

  it('keeps the cream refused from 07:40, and says so to somebody who uses it all the same', async () => {
    expect(after.receiptDecision.map((d) => [d.lot, d.decision, d.at])).toEqual([[cream, 'refused', '2026-11-25T07:40:00.000Z']]);
    const used = await b.baker.record('weighed-in', { make: tarts, lines: [b.into('cream', '300', cream)] }, { at: at('08:00') });
    expect(used.outcome).toMatchObject({ lines: [{ trouble: 'refused-lot-used' }] });
    const withdrawn = await b.baker.record(
      'entry-withdrawn',
      {},
      { corrects: used.id, words: { reason: 'it was not used after all' }, at: at('08:05') },
    );
    const rows = await b.night();
    expect(rows.flow.filter((f) => f.source === cream)).toEqual([]);
    expect(rows.deviation.filter((d) => d.subject === tarts).map((d) => d.type)).toEqual(['refused-lot-used']); // only a decision closes it
    expect(withdrawn.seq).toBeGreaterThan(used.seq);
  });

  it('turns from unknown to certain at 09:15, and the records show both', () => {
    const look = (rows: Snapshot) => codeOf(lookupOf(rows, '2026-11-25T09:20:00.000Z', 'Europe/London'), egg);
    expect([look(before), look(after)]).toEqual([
      { code: null, known: 'not-known-yet' },
      { code: 'E7731', known: 'named-later' },
    ]);
    expect(after.lot.find((l) => l.id === egg)).toMatchObject({ code: null, codeState: 'not-known-yet' });
    expect(after.lotIdentified.map((i) => [i.lot, i.code, i.at])).toEqual([[egg, 'E7731', '2026-11-25T09:15:00.000Z']]);
  });

  it('finds the tarts by E7731, certainly, with 540 g', async () => {
    const { body } = await b.baker.caller.get('/lots?words=e7731').expect(200);
    expect(body).toMatchObject([{ id: egg, code: 'E7731', name: 'egg, liquid', type: 'placeholder' }]);
    const traced = await traceOf(b, egg);
    expect(traced.find((l) => l.id === egg)?.code).toBe('E7731');
    expect(traced.find((l) => l.id === tarts)).toMatchObject({ certain: true, by: { from: egg, mg: 540_000 } });
    expect(traced.map((l) => l.id)).toEqual(expect.arrayContaining(after.run.filter((r) => r.make === tarts).map((r) => r.id)));
  });

  it('does the same where the note shows that it is a lot already known', async () => {
    const known = await b.delivered('egg', at('09:16'), { code: 'E7731-B', quantity: { figure: '1', unit: 'kg' } });
    await b.baker.record('lot-identified', { lot: egg, code: null, same: known, delivery: null }, { at: at('09:16') });
    expect((await traceOf(b, known)).map((l) => l.id)).toEqual(expect.arrayContaining([egg, tarts]));
  });

  it('lets a baker refuse goods at the door, and nobody who only looks', async () => {
    const looks = new Hand(b.house, await b.house.signedOn('Lu Looks', ['viewer']));
    expect((await looks.refused('receipt-decided', { lot: cream, decision: 'accepted' })).problem).toBe('not-permitted');
    expect((await verified(t, b.house)).faults).toEqual([]);
  });
});

async function traceOf(b: Bakehouse, lot: string): Promise<TracedLot[]> {
  const { body } = await b.baker.caller.get(`/lots/${lot}/trace`).expect(200);
  return body.lots as TracedLot[]; // the route's contract
}
