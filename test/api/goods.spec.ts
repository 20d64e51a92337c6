import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, celsius, g } from '../support/bakehouse.js';

/** S3 of the trade's notes, as the office sees it. */
describe('goods in, as the office sees them', () => {
  let t: TestApp;
  let b: Bakehouse;
  let cream: string;
  let egg: string;
  const deliveries = async () => (await b.lead.caller.get(`/sites/${b.site}/deliveries`).expect(200)).body;
  const open = async () => (await b.lead.caller.get(`/sites/${b.site}/open`).expect(200)).body;

  beforeAll(async () => {
    t = await startTestApp({ clock: new SettableClock('2026-11-25T09:30:00Z') });
    b = await Bakehouse.found(t);
    [cream, egg] = [b.newId(), b.newId()];
    const nobody = { code: null, codeState: 'not-known-yet' } as const;
    await b.baker.record(
      'delivery-received',
      {
        supplier: b.party('eggVan'),
        noteNumber: null,
        photo: null,
        unattended: true,
        lines: [
          b.line('cream', cream, {
            ...nobody,
            quantity: g('2000'),
            temperature: { ...celsius('9.4'), measured: 'between-packs', point: b.point('chilled-in'), instrument: null },
          }),
          b.line('egg', egg, { ...nobody, quantity: g('3000'), asWritten: '3 × 1 kg' }),
        ],
      },
      { at: at('06:10') },
    );
    const tarts = await b.begun('treacle', at('06:05'));
    await b.baker.record('weighed-in', { make: tarts, lines: [b.into('egg', '540', egg)] }, { at: at('06:06') });
  });
  afterAll(() => t.close());

  it('lists what came with how warm it was, and what waits for a name', async () => {
    const [delivery] = await deliveries();
    expect(delivery).toMatchObject({ supplierName: 'Dairy and egg van', unattended: true, note: null });
    expect(delivery.lines).toMatchObject([
      {
        name: 'cream',
        code: null,
        temperature: { figure: '9.4', measured: 'between-packs', verdict: 'outside' },
        decision: null,
        used: false,
      },
      { name: 'egg, liquid', asWritten: '3 × 1 kg', temperature: null, used: true },
    ]);
    expect((await open()).notIdentified.map((l: { lot: string; used: boolean }) => [l.lot, l.used]).sort()).toEqual(
      [
        [cream, false],
        [egg, true],
      ].sort(),
    );
  });

  it('shows what was decided and named since', async () => {
    await b.baker.record('receipt-decided', { lot: cream, decision: 'refused' }, { at: at('07:40') });
    await b.baker.record('lot-identified', { lot: egg, code: 'E7731', same: null, delivery: null }, { at: at('09:15') });
    const [delivery] = await deliveries();
    expect(delivery.lines).toMatchObject([{ decision: { decision: 'refused', condition: null } }, { code: 'E7731', named: true }]);
    expect((await open()).notIdentified.map((l: { lot: string }) => l.lot)).toEqual([cream]);
  });

  it('shows what is held, and what was sent and could not be recorded, until it is', async () => {
    await b.lead.record('hold-placed', { lot: egg, deviation: null }, { words: { because: 'supplier rang' } });
    const held: { lot: string; name: string; concerns: { type: string; from: string; by: string | null }[] }[] = (await open()).held;
    expect(held.map((h) => [h.name, h.concerns.map((c) => c.type)]).sort()).toEqual([
      ['cream', ['refused', 'open-deviation']],
      ['egg, liquid', ['held']],
      ['treacle tarts', ['held']],
    ]);
    expect(held.find((h) => h.lot !== egg && h.name === 'treacle tarts')?.concerns).toMatchObject([{ from: egg, by: egg }]);
    const late = b.house.entry({ kind: 'lot-emptied', payload: { station: b.newId(), lot: egg, left: null } });
    expect(await b.baker.send([late])).toMatchObject([{ as: 'refused' }]);
    expect((await open()).setAside).toMatchObject([
      { as: 'refused', kind: 'lot-emptied', problem: 'unknown-place', personName: 'Bo Baker' },
    ]);
  });

  it('goes back by days, both ends included, at most 31 together', async () => {
    const asked = (query: string) => b.lead.caller.get(`/sites/${b.site}/deliveries?${query}`);
    expect((await asked('from=2026-10-26&until=2026-11-25').expect(200)).body).toHaveLength(1);
    expect((await asked('from=2026-11-25&until=2026-11-25').expect(200)).body).toHaveLength(1);
    expect((await asked('until=2026-11-24').expect(200)).body).toEqual([]);
    for (const query of ['from=2026-10-25&until=2026-11-25', 'from=2026-11-26&until=2026-11-25', 'from=2001-01-01'])
      expect((await asked(query).expect(422)).body).toMatchObject({ field: 'from', acceptable: expect.stringContaining('31 days') });
    for (const query of ['until=0000-01-01', 'until=9999-12-31', 'until=2026-02-30']) await asked(query).expect(400);
  });

  it('is for people of the house: another house and an inspector see nothing of it', async () => {
    const inspector = await b.house.signedOn('Ina Spect', ['inspector']);
    await inspector.get(`/sites/${b.site}/deliveries`).expect(403);
    const other = await Bakehouse.found(t);
    await other.lead.caller.get(`/sites/${b.site}/open`).expect(422);
  });

  it('keeps on hold what was read within again with nothing done about it, and lists it no more once something was', async () => {
    const late = await b.delivered('cream', at('08:00'), {
      temperature: { ...celsius('9.4'), measured: 'between-packs', point: b.point('chilled-in'), instrument: null },
    });
    const listed = async () => (await open()).held.some((h: { lot: string }) => h.lot === late);
    const again = b.reading('chilled-in', 'lot', late, '3.0', { measured: 'between-packs' });
    await b.baker.record('reading-taken', again, { at: at('08:20') });
    expect(await listed()).toBe(true);
    const deviation = (await b.night()).deviation.find((d) => d.subject === late)?.id ?? '';
    await b.baker.record('corrective-action-taken', { deviation, type: 'cooled-again' }, { at: at('08:30') });
    expect(await listed()).toBe(true);
    await b.baker.record('reading-taken', again, { at: at('08:50') });
    expect(await listed()).toBe(false);
  });
});
