import { describe, expect, it } from '@jest/globals';
import { formulaApproved } from './formula-approved.js';
import { formulaRetired } from './formula-retired.js';
import { formulaContent } from '../rows/formula-content.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const formula = testId(0xd0);
const content = formulaContent.parse(formulaApproved.examples[0].content);
const version = (n: number, since: string) => ({
  in: 'formulaVersion' as const,
  id: testId(0xd0 + n),
  row: { formula, number: n, name: 'White dough', type: 'dough' as const, content, loosened: [], note: null, since },
});

describe('formula-retired', () => {
  it('puts a formula retired once', () => {
    const h = new House([version(1, '2026-01-01T00:00:00.000Z')]);
    const retired = h.recorded(formulaRetired, { payload: { formula } });
    expect(retired.rows).toEqual([{ in: 'formulaRetired', id: retired.id, row: { formula, at: '2026-11-25T04:40:00.000Z' } }]);
    expect(h.record(formulaRetired, { payload: { formula } })).toMatchObject({ problem: 'already-so', field: 'payload.formula' });
    expect(h.record(formulaRetired, { payload: { formula }, replaces: retired }).ok).toBe(true);
  });

  it('a later version takes it up again, so that it can be retired again', () => {
    const h = new House([version(1, '2026-01-01T00:00:00.000Z'), version(2, '2026-11-22T00:00:00.000Z')]);
    h.recorded(formulaRetired, { payload: { formula }, at: '2026-11-21T00:00:00Z' });
    expect(h.record(formulaRetired, { payload: { formula } }).ok).toBe(true);
  });

  it('is refused for a formula that nobody knows', () => {
    expect(new House().record(formulaRetired, { payload: { formula } })).toMatchObject({
      problem: 'unknown-formula',
      field: 'payload.formula',
    });
  });
});
