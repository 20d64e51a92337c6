import type { Change } from '../base/state.js';

/** The row of a lot that nobody can name yet: it stands for what was used until somebody can. */
export function placeholderLot(lot: string, of: { material: string; specification: string | null; name: string }, at: string): Change {
  return {
    in: 'lot',
    id: lot,
    row: {
      material: of.material,
      specification: of.specification,
      name: of.name,
      type: 'placeholder',
      code: null,
      codeState: 'not-known-yet',
      delivery: null,
      supplier: null,
      mg: null,
      pieces: null,
      quantityAsWritten: null,
      bestBefore: null,
      useBy: null,
      at,
    },
  };
}
