import type { Deliveries } from '@bakehouse/contracts';
import { isOnHold } from '@bakehouse/views';
import { dayText } from '../../../shared/format';

/** What the delivery of a lot says of it. */
export interface Delivered {
  readonly supplier: string | null;
  readonly note: string | null;
  readonly photo: boolean;
  readonly unattended: boolean;
  readonly receivedAt: string;
  readonly date: string | null;
  readonly held: boolean;
}

export function deliveredIn(all: Deliveries): ReadonlyMap<string, Delivered> {
  return new Map(
    all.flatMap((d) =>
      d.lines.map((l): [string, Delivered] => [
        l.lot,
        {
          supplier: d.supplierName,
          note: d.note,
          photo: d.photo !== null,
          unattended: d.unattended,
          receivedAt: d.receivedAt,
          date: l.useBy !== null ? `use by ${dayText(l.useBy)}` : l.bestBefore === null ? null : `best before ${dayText(l.bestBefore)}`,
          held: isOnHold(l),
        },
      ]),
    ),
  );
}

export const deliveredOf = (of: Delivered | undefined): Pick<Delivered, 'supplier' | 'note'> => ({
  supplier: of?.supplier ?? null,
  note: of?.note ?? null,
});
