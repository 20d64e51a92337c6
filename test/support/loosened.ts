import type { LooseningBasis } from '@bakehouse/records';
import { pointKeys } from './bakehouse-data.js';

/** Words, for tests, of why control points may be less strict than in the plan in force. Nobody validated anything. */
export const looseningsOf = (points: readonly string[]): LooseningBasis[] =>
  points.map((point) => ({
    point,
    reason: 'another plan for this test',
    validatedBy: 'nobody: a test',
    evidence: 'none: a test',
    validatedOn: '2026-01-05',
  }));

/** What the payload of a plan says that takes the place of the bakehouse's own. */
export const inItsPlace = { loosened: looseningsOf([...pointKeys, 'past life: opened', 'past life: madeHere']) };
