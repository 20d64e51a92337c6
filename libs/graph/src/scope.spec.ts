import type { Hazard } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import type { Reached } from './forward.js';
import { scopeOf } from './scope.js';

const lots: Reached[] = [
  { lot: 's', min: 10n ** 12n, max: 10n ** 12n, minMg: null, maxMg: null, steps: 0, by: null },
  { lot: 'strong', min: 5n, max: 6n, minMg: null, maxMg: null, steps: 1, by: null },
  { lot: 'weak', min: 0n, max: 4n, minMg: null, maxMg: null, steps: 2, by: null },
  { lot: 'unknown', min: null, max: null, minMg: null, maxMg: null, steps: 2, by: null },
];

describe('the scope of a recall', () => {
  it.each<Hazard>(['physical', 'microbiological', 'allergen'])('%s does not dilute: no cut-off is applied', (hazard) => {
    expect(scopeOf(lots, hazard, 5n).inScope.map((r) => r.lot)).toEqual(['s', 'strong', 'unknown', 'weak']);
  });
  it('an even chemical leaves out what is surely below the action level, and lists it', () => {
    const scope = scopeOf(lots, 'chemical', 5n);
    expect(scope.inScope.map((r) => r.lot)).toEqual(['s', 'strong', 'unknown']);
    expect(scope.leftOut.map((r) => r.lot)).toEqual(['weak']);
  });
  it('an even chemical without an action level leaves nothing out', () => {
    expect(scopeOf(lots, 'chemical', null).leftOut).toEqual([]);
  });
});
