import { describe, expect, it } from '@jest/globals';
import { ccpDecision } from './ccp-decision.js';

const sayings = [true, false];
const rows = sayings.flatMap((q1) => sayings.flatMap((q2) => sayings.flatMap((q3) => sayings.map((q4) => ({ q1, q2, q3, q4 })))));
const decide = (edition: unknown, answers: Record<string, unknown>) => {
  const outcome = ccpDecision.calculate({ edition, answers });
  return outcome.ok ? `${outcome.value.outcome} by ${outcome.value.decidedBy}` : `refused ${outcome.field}: ${outcome.acceptable}`;
};

describe('ccp-decision', () => {
  it('asks no question that earlier answers make needless', () => {
    expect(decide('2022', { q1: true })).toBe('not-ccp by Q1');
    expect(decide('2022', { q1: false, q2: false })).toBe('not-ccp by Q2');
    expect(decide('2022', { q1: false, q2: true, q3: true })).toBe('later-step by Q3');
    expect(decide('2003', { q1: true, q2: true })).toBe('ccp by Q2');
  });

  it('refuses where a question that is needed has no answer, and asks it', () => {
    expect(decide('2022', {})).toMatch(/^refused answers.q1: yes or no to: Can /);
    expect(decide('2022', { q1: false })).toMatch(/^refused answers.q2/);
    expect(decide('2022', { q1: false, q2: true, q4: true })).toMatch(/^refused answers.q3/);
    expect(decide('2022', { q1: false, q2: true, q3: false })).toMatch(/^refused answers.q4/);
    expect(decide('2003', { q1: false, q2: true })).toMatch(/^refused answers.q1b/);
  });

  it('takes yes and no for true and false, and the edition as a number', () => {
    for (const row of rows) {
      const words = Object.fromEntries(Object.entries(row).map(([id, said]) => [id, said ? 'yes' : 'no']));
      expect(decide(2022, words)).toBe(decide('2022', row));
    }
  });

  it('gives the 1997 and 2003 editions the same questions, and 2022 its own', () => {
    for (const row of rows.map((r) => ({ ...r, q1b: r.q4 }))) expect(decide('1997', row)).toBe(decide('2003', row));
    expect(rows.filter((row) => decide('2003', { ...row, q1b: true }) !== decide('2022', row)).length).toBeGreaterThan(0);
  });

  it('warns that a hazard without a control measure still stands', () => {
    const out = ccpDecision.calculate({ edition: '2022', answers: { q1: false, q2: false } });
    expect(out.ok ? out.value.cautions.join(' ') : '').toMatch(/remains/);
    expect(out).toMatchObject({ ok: true, value: { inputs: { edition: '2022' }, question: expect.stringMatching(/control measures/) } });
  });

  it('refuses other editions, other answers, and a question the tree does not have', () => {
    expect(decide('2020', {})).toMatch(/^refused edition: 2022, 2003 or 1997/);
    expect(decide('2022', { q1: 'maybe' })).toMatch(/^refused answers.q1/);
    expect(decide('2022', { q1: true, q5: true })).toMatch(/^refused answers.q5/);
    expect(decide('2022', { q1: true, q1b: true })).toMatch(/^refused answers.q1b/);
  });
});
