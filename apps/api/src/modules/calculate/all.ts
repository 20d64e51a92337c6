import { calculations, type Calculation } from '@bakehouse/sums';
import { gs1Calculations } from '@bakehouse/standards';

/** Every calculation that is answered. */
export const allCalculations: readonly Calculation[] = [...calculations, ...gs1Calculations];
export const byName: ReadonlyMap<string, Calculation> = new Map(allCalculations.map((c) => [c.name, c]));
