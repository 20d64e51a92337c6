import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { bakehouse, delivered, materials, night, points } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';

type Delivery = PayloadFor<'delivery-received'>;
const [lot, supplier] = [uuid(0xe01), uuid(0xa91)];
const payload = (lines: Delivery['lines'], of: Partial<Delivery> = {}): Delivery => ({
  supplier: null,
  noteNumber: 'DN 20417',
  photo: null,
  unattended: false,
  lines,
  ...of,
});
const warm = (figure: string) => ({ figure, unit: 'degC' as const, measured: 'between-packs' as const, point: points.chilled });
const at = { at: night('05:30') };

describe('goods that came in', () => {
  it('are lots with what the paper says', () => {
    const book = bakehouse();
    const { id } = book.record(
      'delivery-received',
      payload([delivered(lot, materials.flour, { code: 'M4471', asWritten: '1 × 25 kg', bestBefore: '2027-02-28' })]),
      at,
    );
    expect(book.get('lot', lot)).toMatchObject({
      code: 'M4471',
      codeState: 'on-it',
      type: 'received',
      mg: 25_000_000,
      quantityAsWritten: '1 × 25 kg',
      delivery: id,
      name: 'white flour',
    });
  });

  it('are judged by their temperature at once, and by the same limit when it is corrected', () => {
    const book = bakehouse();
    const { id } = book.record('delivery-received', payload([delivered(lot, materials.cream, { temperature: warm('9.4') })]), at);
    expect(book.all('deviation').map((d) => [d.subjectType, d.subject, d.type, d.holds])).toEqual([['lot', lot, 'limit', true]]);
    const corrected = payload([delivered(uuid(0xe02), materials.egg), delivered(lot, materials.cream, { temperature: warm('7.4') })]);
    book.record('delivery-received', corrected, { ...at, corrects: id, words: { reason: 'misread' } });
    expect(book.all('reading').map((r) => [r.subject, r.milli, r.verdict, r.corrected])).toEqual([[lot, 7400, 'within', true]]);
    expect(book.all('deviation').length).toBe(1);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('by volume are taken as written where nobody said what a millilitre weighs: how much it is, is not known', () => {
    const book = bakehouse();
    const oil = book.all('specification').find((s) => s.material === materials.tinOil);
    if (!oil) throw new Error('no specification');
    book.given('specification', oil.id, { ...oil, densityMgPerMl: null });
    const litres = { quantity: { figure: '5', unit: 'l' as const }, asWritten: '5 l' };
    book.record('delivery-received', payload([delivered(lot, materials.tinOil, litres)]), at);
    expect(book.get('lot', lot)).toMatchObject({ mg: null, pieces: null, quantityAsWritten: '5 l' });
  });

  it('take the supplier’s own specification before a general one', () => {
    const book = bakehouse();
    const [general, own] = [book.all('specification').find((s) => s.material === materials.tinOil), uuid(0xf50)];
    if (!general) throw new Error('no specification');
    book.given('party', uuid(0xf51), {
      party: supplier,
      type: 'supplier',
      name: null,
      contactName: null,
      phone: null,
      email: null,
      address: null,
      vulnerable: false,
      unattended: false,
      since: '2026-01-01T00:00:00.000Z',
    });
    book.given('specification', own, { ...general, supplier, contains: ['soybeans'], since: '2025-01-01T00:00:00.000Z' });
    book.record('delivery-received', payload([delivered(lot, materials.tinOil)], { supplier }), at);
    book.record('delivery-received', payload([delivered(uuid(0xe02), materials.tinOil)]), at);
    expect([lot, uuid(0xe02)].map((l) => book.get('lot', l)?.specification)).toEqual([own, general.id]);
  });

  it.each<[string, Delivery, string, string]>([
    ['a material that is not there', payload([delivered(lot, uuid(0xfff))]), 'unknown-material', 'payload.lines.0.material'],
    ['a supplier that is not there', payload([delivered(lot, materials.flour)], { supplier }), 'unknown-party', 'payload.supplier'],
    ['one lot twice', payload([delivered(lot, materials.flour), delivered(lot, materials.flour)]), 'id-reused', 'payload.lines.1.lot'],
    [
      'a code that is said not to be there',
      payload([delivered(lot, materials.flour, { codeState: 'none-on-it' })]),
      'malformed',
      'payload.lines.0.code',
    ],
    [
      'minutes of flour',
      payload([delivered(lot, materials.flour, { quantity: { figure: '5', unit: 'min' } })]),
      'unacceptable-value',
      'payload.lines.0.quantity',
    ],
    [
      'a point that is not there',
      payload([delivered(lot, materials.cream, { temperature: { ...warm('4'), point: uuid(0xfff) } })]),
      'unknown-point',
      'payload.lines.0.temperature.point',
    ],
  ])('are refused for %s', (_case, wrong, problem, field) => {
    expect(bakehouse().refusal('delivery-received', wrong, at)).toMatchObject({ problem, field });
  });

  it('never take over the lot of another delivery, not by a correction either', () => {
    const book = bakehouse();
    book.record('delivery-received', payload([delivered(lot, materials.flour)]), at);
    const { id } = book.record('delivery-received', payload([delivered(uuid(0xe02), materials.flour)]), at);
    expect(book.refusal('delivery-received', payload([delivered(lot, materials.flour)]), at).problem).toBe('id-reused');
    expect(
      book.refusal('delivery-received', payload([delivered(lot, materials.flour)]), { ...at, corrects: id, words: { reason: 'x' } })
        .problem,
    ).toBe('id-reused');
  });
});
