import { describe, expect, it } from '@jest/globals';
import { House, testId } from '../../../../test/support/try-kind.js';
import { formulaContent } from './content.js';
import { formulaBakedByFrom } from './formula-baked-by-from.js';
import { formulaPutAway } from './formula-put-away.js';

const formula = testId(0xd0);
const content = formulaContent.parse(formulaBakedByFrom.examples[0].content);
const version = (n: number, since: string) => ({
  in: 'formulaVersion' as const,
  id: testId(0xd0 + n),
  row: { formula, number: n, name: 'White dough', sort: 'dough' as const, content, since },
});

describe('formula-put-away', () => {
  it('puts a formula away once', () => {
    const h = new House([version(1, '2026-01-01T00:00:00.000Z')]);
    const away = h.recorded(formulaPutAway, { payload: { formula } });
    expect(away.rows).toEqual([{ in: 'formulaAway', id: away.id, row: { formula, at: '2026-11-25T04:40:00.000Z' } }]);
    expect(h.record(formulaPutAway, { payload: { formula } })).toMatchObject({ problem: 'already-so', field: 'payload.formula' });
    expect(h.record(formulaPutAway, { payload: { formula }, replaces: away }).ok).toBe(true);
  });

  it('a later version takes it up again, so that it can be put away again', () => {
    const h = new House([version(1, '2026-01-01T00:00:00.000Z'), version(2, '2026-11-22T00:00:00.000Z')]);
    h.recorded(formulaPutAway, { payload: { formula }, at: '2026-11-21T00:00:00Z' });
    expect(h.record(formulaPutAway, { payload: { formula } }).ok).toBe(true);
  });

  it('is refused for a formula that nobody knows', () => {
    expect(new House().record(formulaPutAway, { payload: { formula } })).toMatchObject({
      problem: 'unknown-formula',
      field: 'payload.formula',
    });
  });
});
