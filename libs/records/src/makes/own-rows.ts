import type { Change, Rows } from '../base/state.js';

type Lot = Rows['lot'];
type Departure = Rows['departure'];

/** The row of a lot that came about in this house: no supplier, no delivery, nothing on a paper. */
export function ownLot(
  id: string,
  of: Pick<Lot, 'material' | 'specification' | 'name' | 'type' | 'at'> &
    Partial<Pick<Lot, 'code' | 'mg' | 'pieces' | 'bestBefore' | 'useBy'>>,
): Change {
  const { code = null, mg = null, pieces = null, bestBefore = null, useBy = null, ...rest } = of;
  return {
    in: 'lot',
    id,
    row: {
      ...rest,
      code,
      codeKey: null,
      mg,
      pieces,
      bestBefore,
      useBy,
      codeState: 'own',
      delivery: null,
      supplier: null,
      quantityAsWritten: null,
    },
  };
}

/** The row of what was thrown away where it was made: scrap, rejects. It left the lot, and that is certain. */
export function thrownAway(id: string, of: Pick<Departure, 'lot' | 'trip' | 'mg' | 'pieces' | 'how' | 'site' | 'at' | 'earliest'>): Change {
  return {
    in: 'departure',
    id,
    row: { ...of, channel: 'waste', customer: null, certain: true, anyOf: null, unattended: false, decided: null, until: null },
  };
}
