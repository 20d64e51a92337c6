import type { Snapshot } from '@bakehouse/records';
import { formulasInUse } from '../../shared/in-force';

export interface Named {
  readonly value: string;
  readonly text: string;
}

/** Products by the newest name that this device knows. */
export function productsOf(snapshot: Snapshot): readonly Named[] {
  const names = new Map(
    [...snapshot.specification]
      .sort((a, b) => (a.since < b.since ? -1 : 1))
      .filter((s) => s.type === 'product')
      .map((s) => [s.material, s.name] as const),
  );
  return [...names].map(([value, text]) => ({ value, text })).sort((a, b) => a.text.localeCompare(b.text));
}

export const formulasOf = (snapshot: Snapshot, now: string): readonly Named[] =>
  formulasInUse(snapshot, now).map((f) => ({ value: f.formula, text: f.name }));
