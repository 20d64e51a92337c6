import type { InspectedDelivery, InspectionView } from '@bakehouse/contracts';
import { grouped } from '@bakehouse/kernel';
import type { PeriodRecords } from './period-records.js';
import type { RecordedRow } from './rows.js';

type Lot = InspectedDelivery['lots'][number];

/** Deliveries with their documents, lots, temperatures and receipt decisions. */
export function deliveriesOf(records: PeriodRecords): InspectedDelivery[] {
  const { rows } = records;
  const [lots, suppliers] = [grouped(rows.lot, (row) => row.delivery), grouped(rows.party, (row) => row.party)];
  const [decisions, identified] = [grouped(rows.receiptDecision, (row) => row.lot), grouped(rows.lotIdentified, (row) => row.lot)];
  return rows.delivery.map((d) => ({
    id: d.id,
    ...records.provenance({ at: d.receivedAt, entry: d.entry }),
    supplier: d.supplier === null ? null : (suppliers.get(d.supplier)?.at(-1)?.name ?? null),
    noteNumber: d.note,
    photo: d.photo !== null,
    unattended: d.unattended,
    lots: (lots.get(d.id) ?? []).map((l): Lot => {
      const later = identified.get(l.id)?.at(-1);
      return {
        id: l.id,
        name: l.name,
        code: l.code,
        codeState: l.codeState,
        identified: later ? { ...records.provenance(later), code: later.code } : null,
        mg: l.mg,
        pieces: l.pieces,
        asWritten: l.quantityAsWritten,
        bestBefore: l.bestBefore,
        useBy: l.useBy,
        temperatures: records.readingsOf(l.id),
        decisions: (decisions.get(l.id) ?? []).map((x) => decided(records, x)),
      };
    }),
  }));
}

/** Receipt decisions of the period about lots received before it. */
export function otherDecisions(records: PeriodRecords): InspectionView['otherDecisions'] {
  const came = new Set(records.rows.lot.map((l) => l.id));
  return records.rows.receiptDecision
    .filter((d) => !came.has(d.lot))
    .map((d) => ({ ...decided(records, d), lot: d.lot, lotName: records.named(d.lot) }));
}

const decided = (records: PeriodRecords, d: RecordedRow<'receiptDecision'>): Lot['decisions'][number] => ({
  ...records.provenance(d),
  decision: d.decision,
  condition: d.condition,
});
