import { describe, expect, it } from '@jest/globals';
import { openAt } from './open-at.js';
import { bakehouse, delivered, materials, night, places } from '../../../../test/fixtures/bakehouse.js';
import { uuid, type EntryOptions } from '../../../../test/fixtures/driver.js';

const [oil, soya, flour] = [uuid(0xe01), uuid(0xe02), uuid(0xe03)];
function withLots() {
  const book = bakehouse();
  book.record(
    'delivery-received',
    {
      supplier: null,
      noteNumber: null,
      photo: null,
      unattended: false,
      lines: [delivered(oil, materials.tinOil), delivered(soya, materials.tinOilSoya), delivered(flour, materials.flour)],
    },
    { at: night('01:00') },
  );
  const open = (lot: string | null, time: string, of: Record<string, unknown> = {}, told: Partial<EntryOptions> = {}) =>
    book.record(
      'lot-opened',
      { station: places.mixer, material: materials.tinOil, lot, beside: false, ...of },
      { at: night(time), ...told },
    );
  const inUse = (time: string) => openAt(book.all('inUse'), book.all('emptied'), `2026-11-25T${time}:00.000Z`).map((o) => o.lot);
  return { book, open, inUse };
}

describe('opening a lot', () => {
  it('of another brand warns of the soya that comes in with it, and replaces what was open', () => {
    const { open, inUse } = withLots();
    open(oil, '02:00');
    expect(open(soya, '04:10').outcome).toMatchObject({
      replaces: [oil],
      instead: true,
      newAllergens: { contains: ['soybeans'], mayContain: ['milk'] },
    });
    expect([inUse('04:00'), inUse('04:10')]).toEqual([[oil], [soya]]);
  });

  it('where nothing was open compares with what the material should be', () => {
    expect(withLots().open(soya, '02:00').outcome).toMatchObject({ replaces: [], newAllergens: { contains: ['soybeans'] } });
  });

  it('of the same kind brings nothing new in, nor does going back', () => {
    const { open } = withLots();
    open(soya, '02:00');
    expect(open(oil, '02:10').outcome).toMatchObject({ newAllergens: { contains: [], mayContain: [] }, instead: false });
  });

  it('beside another keeps both open', () => {
    const { open, inUse } = withLots();
    open(oil, '02:00');
    expect(open(soya, '02:10', { beside: true }).outcome).toMatchObject({ replaces: [] });
    expect(inUse('02:10')).toEqual([oil, soya]);
  });

  it('that nobody can name makes a placeholder, which stays through a correction', () => {
    const { book, open } = withLots();
    const { id, outcome } = open(null, '02:00');
    const placeholder = book.all('lot').find((l) => l.type === 'placeholder')?.id ?? '';
    expect(outcome).toMatchObject({ lot: placeholder, placeholder: true });
    open(placeholder, '02:05', {}, { corrects: id, words: { reason: 'the time' } });
    expect(book.all('lot').filter((l) => l.type === 'placeholder').length).toBe(1);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('corrected does not count itself as what was open before', () => {
    const { open } = withLots();
    open(oil, '02:00');
    const { id } = open(flour, '02:10');
    expect(open(soya, '02:10', {}, { corrects: id, words: { reason: 'wrong lot' } }).outcome).toMatchObject({ replaces: [oil] });
  });

  it('that is set aside is recorded, and said', () => {
    const { book, open } = withLots();
    book.record('hold-placed', { lot: oil, deviation: null }, { at: night('01:30') });
    expect(open(oil, '02:00').outcome).toMatchObject({ trouble: 'held-lot-used' });
  });

  it.each([
    ['unknown-place', { station: uuid(0xfff) }],
    ['unknown-material', { material: uuid(0xfff) }],
    ['unknown-lot', { lot: uuid(0xfff) }],
  ])('is refused as %s', (problem, of) => {
    const payload = { station: places.mixer, material: materials.tinOil, lot: oil, beside: false, ...of };
    expect(withLots().book.refusal('lot-opened', payload, { at: night('02:00') }).problem).toBe(problem);
  });
});
