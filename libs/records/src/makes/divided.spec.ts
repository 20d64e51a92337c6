import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { divisionSum } from './division-sum.js';
import { bakehouse, g, materials, night, plan, whiteVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid, type EntryOptions } from '../../../../test/fixtures/driver.js';

function withDough() {
  const book = bakehouse();
  const make = book.record(
    'make-begun',
    { formulaVersion: whiteVersion, station: null, plan, bakeDay: '2026-11-25', plannedMg: null },
    { at: night('02:00') },
  ).id;
  book.record(
    'weighed-in',
    { make, lines: [{ material: materials.flour, lot: null, quantity: g('2000'), how: 'weighed', type: 'ingredient' }] },
    { at: night('02:05') },
  );
  const run = (n: number, pieces: number, grams: string, product = materials.tin) => ({
    run: uuid(n),
    product,
    heads: null,
    pieces,
    scaling: g(grams),
  });
  const payload = (of: Record<string, unknown> = {}) => ({
    make,
    quantity: null,
    runs: [run(0xe10, 2, '910')],
    oldDough: null,
    scrap: null,
    ...of,
  });
  const divide = (of: Record<string, unknown> = {}, told: Partial<EntryOptions> = {}) =>
    book.record('divided', payload(of), { at: night('03:00'), ...told });
  return { book, make, run, payload, divide };
}

describe('dividing', () => {
  it('shows what does not add up: 2,000 g in, 1,820 g of pieces', () => {
    const { book, divide } = withDough();
    expect(divide().outcome['sum']).toEqual({ inMg: 2_000_000, runsMg: 1_820_000, oldDoughMg: 0, scrapMg: 0, differenceMg: 180_000 });
    expect(book.get('run', uuid(0xe10))).toMatchObject({
      productName: 'white tin 800 g',
      scalingMg: 910_000,
      lifeDays: 3,
      dateType: 'best-before',
      steps: ['mix', 'divide', 'prove', 'bake'],
    });
    expect(book.get('lot', uuid(0xe10))).toMatchObject({ type: 'run', mg: 1_820_000, pieces: 2, codeState: 'own' });
  });

  it('keeps apart what somebody weighed from what is the sum of the lines', () => {
    const [summed, weighed] = [withDough(), withDough()];
    summed.divide();
    weighed.divide({ quantity: g('1800') });
    const rowsOf = ({ book }: ReturnType<typeof withDough>) => book.all('divided').map((d) => [d.weighedMg, d.inMg]);
    expect([rowsOf(summed), rowsOf(weighed)]).toEqual([[[null, 2_000_000]], [[1_800_000, 1_800_000]]]);
  });

  it('takes the weighed dough instead of the lines where somebody weighed it, and more may come out than went in', () => {
    expect(withDough().divide({ quantity: g('1800') }).outcome['sum']).toMatchObject({ inMg: 1_800_000, differenceMg: -20_000 });
  });

  it('keeps old dough as a lot of its own and scrap as waste', () => {
    const { book, make, divide } = withDough();
    divide({ oldDough: g('100'), scrap: g('80') });
    const kept = book.all('lot').filter((l) => l.type === 'old-dough');
    expect(kept.map((l) => [l.name, l.mg])).toEqual([['white dough', 100_000]]);
    expect(
      book
        .all('flow')
        .filter((f) => f.target === kept[0]?.id)
        .map((f) => [f.source, f.mg]),
    ).toEqual([[make, 100_000]]);
    expect(book.all('departure').map((d) => [d.lot, d.channel, d.mg])).toEqual([[make, 'waste', 80_000]]);
  });

  it('replaces runs by a correction and keeps the same old dough', () => {
    const { book, run, divide } = withDough();
    const { id } = divide({ oldDough: g('100') });
    const before = book
      .all('lot')
      .filter((l) => l.type === 'old-dough')
      .map((l) => l.id);
    divide({ runs: [run(0xe10, 3, '910')] }, { corrects: id, words: { reason: 'miscounted' } });
    expect(book.all('run').map((r) => [r.id, r.pieces])).toEqual([[uuid(0xe10), 3]]);
    divide(
      { runs: [run(0xe11, 1, '910'), run(0xe12, 1, '465', materials.bloomer)], oldDough: g('120') },
      { corrects: id, words: { reason: 'miscounted' } },
    );
    expect(book.all('run').map((r) => r.id)).toEqual([uuid(0xe11), uuid(0xe12)]);
    expect(
      book
        .all('lot')
        .filter((l) => l.type === 'old-dough')
        .map((l) => [l.id, l.mg]),
    ).toEqual([[before[0], 120_000]]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it('takes a product that the formula does not name, with no life where nobody gave it one', () => {
    const { book, run, divide } = withDough();
    divide({ runs: [run(0xe13, 1, '500', materials.tart)] });
    expect(book.get('run', uuid(0xe13))).toMatchObject({ productName: 'treacle tart', lifeDays: null, dateType: null });
  });

  it.each<[string, (d: ReturnType<typeof withDough>) => Record<string, unknown>, string, string]>([
    ['a make that is not there', () => ({ make: uuid(0xfff) }), 'unknown-make', 'payload.make'],
    ['a product that is not there', (d) => ({ runs: [d.run(0xe14, 1, '1', uuid(0xfff))] }), 'unknown-material', 'payload.runs.0.product'],
    ['one run twice', (d) => ({ runs: [d.run(0xe14, 1, '1'), d.run(0xe14, 1, '1')] }), 'id-reused', 'payload.runs.1.run'],
    [
      'a run that is there already',
      (d) => {
        d.divide();
        return {};
      },
      'id-reused',
      'payload.runs.0.run',
    ],
    [
      'a scaling weight in pieces',
      (d) => ({ runs: [{ ...d.run(0xe14, 1, '1'), scaling: { figure: '3', unit: 'piece' } }] }),
      'unacceptable-value',
      'payload.runs.0.scaling',
    ],
    ['nothing at all', () => ({ runs: [] }), 'malformed', 'payload.runs'],
  ])('is refused for %s', (_case, of, problem, field) => {
    const d = withDough();
    const payload = d.payload(of(d));
    expect(d.book.refusal('divided', payload, { at: night('03:00') })).toMatchObject({ problem, field });
  });

  it('always sums: what there was is pieces, old dough, scrap and the difference', () => {
    const mg = fc.integer({ min: 0, max: 1_000_000_000 });
    fc.assert(
      fc.property(
        mg,
        fc.array(fc.record({ pieces: fc.integer({ min: 1, max: 1000 }), scalingMg: fc.integer({ min: 0, max: 2_000_000 }) })),
        mg,
        mg,
        (inMg, runs, old, scrap) => {
          const sum = divisionSum(inMg, runs, old, scrap);
          return sum.runsMg + sum.oldDoughMg + sum.scrapMg + (sum.differenceMg ?? Number.NaN) === inMg;
        },
      ),
    );
    expect(divisionSum(null, [], 0, 0).differenceMg).toBeNull();
  });
});
