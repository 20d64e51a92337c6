import type { LooseningBasis } from '@bakehouse/records';

/** Words, for tests, of why control points may be less strict than in the plan in force. Nobody validated anything. */
export const looseningsOf = (points: readonly string[]): LooseningBasis[] =>
  points.map((point) => ({
    point,
    reason: 'another plan for this test',
    validatedBy: 'nobody: a test',
    evidence: 'none: a test',
    validatedOn: '2026-01-05',
  }));
