import { grouped } from '@bakehouse/kernel';
import { formulaType, inForce, phrase, processStep, type Row, type Snapshot } from '@bakehouse/records';
import { formulasInUse } from '../../shared/in-force';

export interface MaterialChoice {
  readonly value: string;
  readonly text: string;
  readonly type: Row<'specification'>['type'];
  readonly flour: boolean;
  readonly madeBy: string | null;
}

/** What can be chosen in a formula, as this device knows the catalogue. */
export interface Choices {
  readonly materials: readonly MaterialChoice[];
  nameOf(id: string): string;
}

/** Materials by name, each with the formula that makes it here, where one does. */
export function choicesOf(snapshot: Snapshot, now: string): Choices {
  const formulas = formulasInUse(snapshot, now);
  const newest = [...grouped(snapshot.specification, (s) => s.material).values()].flatMap((some) => inForce(some, now) ?? []);
  const materials = newest
    .map(({ material, name, type, flour }): MaterialChoice => ({
      value: material,
      text: name,
      type,
      flour,
      madeBy: formulas.find((f) => f.content.makes === material)?.formula ?? null,
    }))
    .sort((a, b) => a.text.localeCompare(b.text));
  const names = new Map([...materials.map((m) => [m.value, m.text] as const), ...formulas.map((f) => [f.formula, f.name] as const)]);
  return { materials, nameOf: (id) => names.get(id) ?? id };
}

export const typeChoices = formulaType.options.map((value) => ({ value, text: phrase(`formula.${value}`) }));
export const stepChoices = processStep.shape.type.options.map((value) => ({ value, text: value }));
export const speedChoices = [
  { value: 'slow', text: phrase('speed.slow') },
  { value: 'fast', text: phrase('speed.fast') },
];
