import type { InspectedDelivery, InspectionView } from '@bakehouse/contracts';
import type { Told } from '../period-rows.query.js';
import { grouped, type Scene } from './scene.js';

type Lot = InspectedDelivery['lots'][number];

/** What came in, as the paper and the packs said, how warm it was, and what was decided about it. */
export function deliveriesOf(scene: Scene): InspectedDelivery[] {
  const { rows } = scene;
  const [lots, suppliers] = [grouped(rows.lot, 'delivery'), grouped(rows.party, 'party')];
  const [decisions, identified] = [grouped(rows.receiptDecision, 'lot'), grouped(rows.lotIdentified, 'lot')];
  return rows.delivery.map((d) => ({
    id: d.id,
    ...scene.told({ at: d.receivedAt, entry: d.entry }),
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
        identified: later ? { ...scene.told(later), code: later.code } : null,
        mg: l.mg,
        pieces: l.pieces,
        asWritten: l.quantityAsWritten,
        bestBefore: l.bestBefore,
        useBy: l.useBy,
        temperatures: scene.readingsOf(l.id),
        decisions: (decisions.get(l.id) ?? []).map((x) => decided(scene, x)),
      };
    }),
  }));
}

/** Decisions of the period about lots that came before it. */
export function otherDecisions(scene: Scene): InspectionView['otherDecisions'] {
  const came = new Set(scene.rows.lot.map((l) => l.id));
  return scene.rows.receiptDecision
    .filter((d) => !came.has(d.lot))
    .map((d) => ({ ...decided(scene, d), lot: d.lot, lotName: scene.named(d.lot) }));
}

const decided = (scene: Scene, d: Told<'receiptDecision'>): Lot['decisions'][number] => ({
  ...scene.told(d),
  decision: d.decision,
  condition: d.condition,
});
