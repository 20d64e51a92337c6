import { lotCodeState, type PayloadFor, planInForce, pointId, pointMeasured, pointsFor, type Row, type Snapshot } from '@bakehouse/records';
import { systemClock, systemIds } from '@bakehouse/offline';
import { figureOf } from '../ui';

export const codeStates = lotCodeState.extract(['not-known-yet', 'none-on-it', 'on-it']);
type CodeState = (typeof codeStates.options)[number];
/** Where a temperature on arrival is measured. */
export const arrivalMeasured = pointMeasured.extract(['between-packs', 'surface', 'core', 'air']);
export interface DeliveryLine {
  readonly lot: string;
  readonly material: string;
  readonly name: string;
  readonly quantity: string;
  readonly unit: 'kg' | 'g' | 'l' | 'piece';
  readonly asWritten: string;
  readonly codeState: CodeState;
  readonly code: string;
  readonly bestBefore: string;
  readonly useBy: string;
  readonly temperature: string;
  readonly measured: (typeof arrivalMeasured.options)[number];
}

/** The control point that a temperature on arrival is for, by the plan in force: one for this material, measured there, else the first on arrival. */
export function arrivalPoint(
  snapshot: Snapshot,
  of: { site: string; at: string; material: string; measured: string },
): { readonly id: string; readonly limit: Row<'controlPoint'>['content']['limit'] } | undefined {
  const plan = planInForce(snapshot.planVersion, of.site, of.at);
  if (!plan) return undefined;
  const points = pointsFor(plan.content, { step: 'receive', formula: null, products: [of.material] }).filter(
    (p) => p.limit.type === 'range',
  );
  const point = points.find((p) => p.measured === of.measured) ?? points[0];
  return point && { id: pointId(plan.id, point.key), limit: point.limit };
}

/** Only what is kept cold is judged by the limit for cold goods. */
export const keptCold = (snapshot: Snapshot, material: string): boolean =>
  snapshot.specification.some((s) => s.material === material && s.storage !== 'ambient');

/** Whether a material has to be used by a day: it is kept cold, or something of it that came had one. Then it is asked for. */
export const hasUseBy = (snapshot: Snapshot, material: string): boolean =>
  keptCold(snapshot, material) || snapshot.lot.some((l) => l.material === material && l.useBy !== null);

/** A line as it stands before anything is typed. */
export const newLine = (material: string, name: string, codeState: CodeState = 'not-known-yet'): DeliveryLine => ({
  lot: systemIds.entry(systemClock.now()),
  material,
  name,
  quantity: '',
  unit: 'kg',
  asWritten: '',
  codeState,
  code: '',
  bestBefore: '',
  useBy: '',
  temperature: '',
  measured: 'between-packs',
});

/** A delivery's line as it is recorded. */
export function deliveryLine(line: DeliveryLine, point: string | null): PayloadFor<'delivery-received'>['lines'][number] {
  const [quantity, temperature] = [figureOf(line.quantity), figureOf(line.temperature)];
  return {
    lot: line.lot,
    material: line.material,
    code: line.codeState === 'on-it' ? line.code.trim() : null,
    codeState: line.codeState,
    quantity: quantity === undefined ? null : { figure: quantity, unit: line.unit },
    asWritten: line.asWritten.trim() === '' ? null : line.asWritten.trim(),
    bestBefore: line.bestBefore === '' ? null : line.bestBefore,
    useBy: line.useBy === '' ? null : line.useBy,
    temperature: temperature === undefined ? null : { figure: temperature, unit: 'degC', measured: line.measured, point, instrument: null },
  };
}
