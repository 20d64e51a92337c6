import { concernsOf, loadsOfBatch, workingSetOf } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { materials, night, plan, whiteFormula } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

describe('a batch', () => {
  it('is a lot of the good pieces, with what was rejected as waste', () => {
    const { book, run, make, loads, countOut } = oneBatch();
    const { id } = countOut({ pieces: 18, rejects: 2 });
    expect(book.get('batch', id)).toMatchObject({
      run,
      make,
      formula: whiteFormula,
      plan,
      product: materials.tin,
      loads,
      pieces: 18,
      rejects: 2,
      steps: ['mix', 'divide', 'prove', 'bake'],
    });
    expect(book.get('lot', id)).toMatchObject({ type: 'batch', code: '6329-TIN', pieces: 18, bestBefore: '2026-11-28' });
    const out = [...book.all('flow'), ...book.all('departure').map((d) => ({ ...d, source: d.lot }))].filter((o) => o.source === run);
    expect(out.map((o) => [o.pieces, o.mg])).toEqual([
      [18, 16_380_000],
      [2, 1_820_000],
    ]);
    expect(book.all('deviation')).toEqual([]);
  });

  it('is on hold for a load of another tablet that was too cold, recorded after it was counted out', () => {
    const { book, run, loads, loadPayload, core, countOut } = oneBatch();
    loads.forEach((l) => core(l, '95.1'));
    const { id } = countOut({ pieces: 20, rejects: 4 });
    const late = book.record('load-in', { ...loadPayload, lines: [{ run, pieces: 4 }] }, { at: night('04:20') }).id;
    core(late, '88');
    expect(
      concernsOf(workingSetOf(book.snapshot()), [id])
        .get(id)
        ?.map((r) => [r.concern.type, r.concern.subject]),
    ).toContainEqual(['open-deviation', late]);
  });

  it('counts all loads of its run where none is named, they held too few, or one that did not hold it', () => {
    const { book, loads, loadPayload, countOut } = oneBatch();
    const other = uuid(0xe11);
    book.given('run', other, {
      make: uuid(0xe99),
      product: materials.bap,
      productName: 'bap',
      heads: null,
      pieces: 10,
      scalingMg: 1,
      lifeDays: 1,
      dateType: null,
      steps: [],
      at: '2026-11-25T03:00:00.000Z',
    });
    const strange = book.record('load-in', { ...loadPayload, lines: [{ run: other, pieces: 10 }] }, { at: night('04:30') }).id;
    const counts = (of: Parameters<typeof countOut>[0]): string[] => {
      const batch = book.get('batch', countOut(of).id);
      return batch ? loadsOfBatch(workingSetOf(book.snapshot()), batch) : [];
    };
    expect(counts({ loads: [] })).toEqual([...loads].sort());
    expect(counts({ loads: [strange] })).toEqual([...loads, strange].sort());
    expect(counts({ loads: [loads[1]], pieces: 10 })).toEqual([loads[1]]);
    expect(counts({ loads: [loads[1]], pieces: 11 })).toEqual([...loads].sort());
  });

  it('that is dated too far is recorded, and a correction of the date leaves that open', () => {
    const { book, countOut } = oneBatch();
    const { id } = countOut({ bestBefore: '2026-11-30' });
    expect(book.all('deviation').map((d) => [d.subject, d.type, d.class, d.holds])).toEqual([[id, 'dated-too-far', 'oprp', false]]);
    countOut({}, { corrects: id, words: { reason: 'misread' } });
    expect([book.get('batch', id)?.bestBefore, book.all('deviation').length]).toEqual(['2026-11-28', 1]);
    expect(book.rebuilt()).toEqual(book.snapshot());
  });

  it.each([
    ['unknown-run', { run: uuid(0xfff) }],
    ['unknown-load', { loads: [uuid(0xfff)] }],
    ['unacceptable-value', { pieces: 0 }],
    ['malformed', { code: '' }],
  ])('is refused as %s', (problem, of) => {
    const { book, counted } = oneBatch();
    expect(book.refusal('batch-counted-out', { ...counted, ...of }, { at: night('05:00') }).problem).toBe(problem);
  });
});
