import { describe, expect, it } from '@jest/globals';
import { releaseFindings } from '../baking/release-findings.js';
import { workingSetOf } from '../base/snapshot.js';
import { delivered, materials, night } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';
import { clearAmong } from './clear.js';

const [flour, water] = [uuid(0xe51), uuid(0xe52)];
const why = { reason: 'the sacks were looked at' };

/** A batch with all its readings, of a dough whose flour came from a lot that nobody could name. */
function ofUnknownFlour(came = '01:00') {
  const n = oneBatch({ weighed: false });
  const [flourLine, waterLine] = n.weighLines;
  n.book.record(
    'delivery-received',
    {
      supplier: null,
      noteNumber: null,
      photo: null,
      unattended: false,
      lines: [flourLine, waterLine].map(({ lot, material }, i) => delivered(lot, material, { code: `L${i}` })),
    },
    { at: night(came) },
  );
  const weigh = (of: object, told: object = {}) =>
    n.book.record('weighed-in', { make: n.make, lines: [{ ...flourLine, ...of }, waterLine] }, { at: night('02:32'), ...told });
  const { id } = weigh({ lot: null });
  n.loads.forEach((load) => n.core(load, '95.1'));
  const batch = n.countOut().id;
  const row = n.book.all('batch').find((b) => b.id === batch);
  const state = () => workingSetOf(n.book.snapshot());
  const findings = () => (row ? releaseFindings(row, state()).map((f) => [f.code, f.what, f.concern]) : []);
  const unnamed = n.book.all('lot').find((l) => l.type === 'placeholder')?.id ?? '';
  return { ...n, weigh, id, batch, state, findings, unnamed };
}

describe('a lot that nobody knows', () => {
  it('keeps a batch of it from being released by rule, and says what to do', () => {
    const n = ofUnknownFlour();
    expect(n.findings()).toEqual([['lot-not-known', 'white flour', null]]);
    expect(n.refused(n.batch).acceptable).toContain(
      'which lot was used is not known (name it, or the lots that it was one of, on the line that was recorded): white flour',
    );
  });

  it.each<[string, (n: ReturnType<typeof ofUnknownFlour>) => void]>([
    ['the line is corrected with the lot', (n) => n.weigh({}, { corrects: n.id, words: why })],
    ['the line is corrected with the lots that it was one of', (n) => n.weigh({ orLots: [water] }, { corrects: n.id, words: why })],
    [
      'it is identified as one that came',
      (n) => n.book.record('lot-identified', { lot: n.unnamed, code: null, same: flour, delivery: null }, { at: night('04:00') }),
    ],
    [
      'a code is found that no lot of its material has',
      (n) => n.book.record('lot-identified', { lot: n.unnamed, code: 'E7731', same: null, delivery: null }, { at: night('04:00') }),
    ],
  ])('no longer where %s', (_case, mend) => {
    const n = ofUnknownFlour();
    mend(n);
    expect(n.findings()).toEqual([]);
    n.release(n.batch);
  });

  const byCode = (n: ReturnType<typeof ofUnknownFlour>, code: string) =>
    n.book.record('lot-identified', { lot: n.unnamed, code, same: null, delivery: null }, { at: night('04:00') });

  it.each(['L0', 'l 0', 'L-0'])('is still not known where the code that was found, %s, is that of a lot that had come', (code) => {
    const n = ofUnknownFlour();
    byCode(n, code);
    n.book.record('hold-placed', { lot: flour, deviation: null }, { at: night('05:00'), words: { because: 'glass' } });
    expect(n.findings()).toEqual([['lot-not-known', 'white flour', null]]);
    n.book.record('lot-identified', { lot: n.unnamed, code: null, same: flour, delivery: null }, { at: night('05:10') });
    expect(n.findings()).toEqual([['held', 'glass', expect.any(String)]]);
  });

  it('is still not known where the lot that had come was given that code later', () => {
    const n = ofUnknownFlour();
    const line = delivered(uuid(0xe19), materials.flour, { code: null, codeState: 'not-known-yet' });
    const came = { supplier: null, noteNumber: null, photo: null, unattended: true, lines: [line] };
    n.book.record('delivery-received', came, { at: night('01:10') });
    byCode(n, 'E7731');
    expect(n.findings()).toEqual([]);
    n.book.record('lot-identified', { lot: line.lot, code: 'e-7731', same: null, delivery: null }, { at: night('04:30') });
    expect(n.findings()).toEqual([['lot-not-known', 'white flour', null]]);
  });

  it('is no reason where only the code of goods that came is still to come', () => {
    const n = ofUnknownFlour();
    const line = delivered(uuid(0xe19), materials.flour, { code: null, codeState: 'not-known-yet' });
    n.book.record(
      'delivery-received',
      { supplier: null, noteNumber: null, photo: null, unattended: true, lines: [line] },
      { at: night('01:10') },
    );
    n.weigh({ lot: line.lot }, { corrects: n.id, words: why });
    expect(n.findings()).toEqual([]);
  });

  it.each([
    ['no reason where no lot of its material had come by then', '02:33', []],
    ['one where one had, though that was recorded afterwards', '02:31', [['lot-not-known', 'white flour', null]]],
  ])('is %s', (_case, came, found) => {
    const n = ofUnknownFlour('02:40');
    const { flourLine, ...late } = {
      flourLine: delivered(uuid(0xe19), materials.flour, { code: 'late' }),
      unattended: false,
    };
    n.book.record('delivery-received', { supplier: null, noteNumber: null, photo: null, ...late, lines: [flourLine] }, { at: night(came) });
    expect(n.findings()).toEqual(found);
  });

  it('is never noted as clear, nor is what came of it', () => {
    const n = ofUnknownFlour();
    const clear = () => [...clearAmong(n.state(), [n.batch], '9999-01-01T00:00:00.000Z').keys()];
    expect(clear()).not.toContain(n.unnamed);
    expect(clear()).not.toContain(n.batch);
    n.book.record('lot-identified', { lot: n.unnamed, code: null, same: flour, delivery: null }, { at: night('04:00') });
    expect(clear()).toContain(n.unnamed);
  });
});
