import { unitText } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import type { DraftWords } from '../../shared/drafts/conflict';
import { differenceText } from '../../shared/drafts/difference-text';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { formulasOf, productsOf } from './names';

const called: Readonly<Record<string, string>> = {
  site: 'for which site',
  content: '',
  name: 'name',
  scope: 'what it covers',
  team: 'who made it',
  points: 'control points',
  pastLife: 'past its life',
  opened: 'once opened',
  madeHere: 'made here',
  step: 'step',
  class: 'class',
  hazard: 'hazard',
  formulas: 'for which formulas',
  products: 'for which products',
  measured: 'measured where',
  parameter: 'what is measured',
  limit: 'limit',
  min: 'from',
  max: 'to',
  unit: 'unit',
  maxMinutes: 'minutes at most',
  fromCelsius: 'from °C',
  toCelsius: 'to °C',
  holdSeconds: 'seconds held',
  frequency: 'how often',
  ifNotMonitored: 'if not monitored',
  ifOutside: 'if outside',
  correctiveAction: 'corrective action',
  basis: 'basis',
  validated: 'validation',
  by: 'who validated it',
  on: 'validated on',
  loosened: 'what it lets through that the plan in force does not',
  reason: 'why it may let this through',
  validatedBy: 'who validated it',
  evidence: 'on what',
  validatedOn: 'validated on',
  type: 'type',
  key: 'key',
};

/** Values that are names of choices are said as they are on the page. */
const groups: Readonly<Record<string, string>> = {
  step: 'pointStep',
  class: 'class',
  measured: 'measured',
  frequency: 'frequency',
  ifNotMonitored: 'ifNotMonitored',
  ifOutside: 'ifOutside',
  opened: 'lifeRule',
  madeHere: 'lifeRule',
};

type NameOf = (id: string) => string;

const placeBy =
  (nameOf: NameOf) =>
  (path: readonly string[]): string =>
    path
      .filter((step) => !step.startsWith('"')) // in a list of plain values a step is the value itself, which is said behind it
      .map((step) => (Object.hasOwn(called, step) ? called[step] : /^\d+$/.test(step) ? String(Number(step) + 1) : nameOf(step)))
      .filter((word) => word !== '')
      .join(', ');

function value(nameOf: NameOf, path: readonly string[], of: unknown): string {
  if (of === null || of === undefined || of === '') return 'nothing';
  if (typeof of === 'string') {
    const field = path.at(-1) ?? '';
    if (field === 'unit') return unitText(of);
    const group = groups[field];
    return group === undefined ? nameOf(of) : phrase(`${group}.${of}` as 'class.ccp'); // the group's own values
  }
  if (typeof of === 'number' || typeof of === 'boolean') return String(of);
  if (Array.isArray(of)) return of.length === 0 ? 'none' : of.map((one) => value(nameOf, [], one)).join(', ');
  const { name } = { name: undefined, ...of };
  return typeof name === 'string' && name !== '' ? name : 'one';
}

/** How places and values of a plan are said, with the names that this device knows. */
export function usePlanWords(): DraftWords {
  const { snapshot } = useTabletState();
  const names = new Map([...productsOf(snapshot), ...formulasOf(snapshot, useNow(60_000))].map((one) => [one.value, one.text]));
  const nameOf: NameOf = (id) => names.get(id) ?? id;
  const place = placeBy(nameOf);
  const said = (path: readonly string[], of: unknown): string => value(nameOf, path, of);
  return { place, value: said, difference: (d) => differenceText(d, place(d.path), said) };
}
