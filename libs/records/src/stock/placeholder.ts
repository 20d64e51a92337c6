import type { Change } from '../base/state.js';

/** What is not said of a lot that came on no paper. */
export const nothingOnIt = {
  code: null,
  codeKey: null,
  delivery: null,
  supplier: null,
  mg: null,
  pieces: null,
  quantityAsWritten: null,
  bestBefore: null,
  useBy: null,
} as const;

/** The row of a lot that nobody can name yet: it stands for what was used until somebody can. */
export function placeholderLot(lot: string, of: { material: string; specification: string | null; name: string }, at: string): Change {
  const { material, specification, name } = of;
  return {
    in: 'lot',
    id: lot,
    row: { ...nothingOnIt, material, specification, name, type: 'placeholder', codeState: 'not-known-yet', at },
  };
}
