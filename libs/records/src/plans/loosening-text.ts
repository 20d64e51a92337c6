import { limitText } from './limit-text.js';
import type { Loosening } from '../rows/loosened.js';

/** How a value of one of a plan's choices is said. */
export type ChoiceText = (
  group: 'class' | 'frequency' | 'ifNotMonitored' | 'ifOutside' | 'measured' | 'pointStep',
  value: string,
) => string;
const plainly: ChoiceText = (_group, value) => (value === 'ccp' || value === 'oprp' ? value.toUpperCase() : value.replaceAll('-', ' '));

/** One loosened thing as it is said: `75 °C or more → 40 °C or more`. */
export function looseningText(
  change: Loosening,
  say: ChoiceText = plainly,
  nameOf: (id: string) => string | undefined = () => undefined,
): string {
  switch (change.what) {
    case 'limit':
      return `${limitText(change.before)} → ${limitText(change.after)}`;
    case 'held':
      return `held ${change.before} s → ${change.after === null ? 'not held' : `held ${change.after} s`}`;
    case 'class':
    case 'frequency':
      return `${say(change.what, change.before)} → ${say(change.what, change.after)}`;
    case 'ifNotMonitored':
      return `if not monitored: ${say(change.what, change.before)} → ${say(change.what, change.after)}`;
    case 'ifOutside':
      return `if outside: ${say(change.what, change.before)} → ${say(change.what, change.after)}`;
    case 'measured':
      return `${takenText(change.before, say)} → ${takenText(change.after, say)}`;
    case 'gone':
      return `${limitText(change.before)} → no control point`;
    case 'fewer':
      return fewerText(change, nameOf);
    case 'life':
      return 'on hold → only warned of';
  }
}

type Taken = Extract<Loosening, { what: 'measured' }>['before'];
const takenText = ({ parameter, step, measured }: Taken, say: ChoiceText): string =>
  `${parameter === '' ? '' : `${parameter}, `}${say('measured', measured)}, step: ${say('pointStep', step)}`;

function fewerText({ formulas, products }: Extract<Loosening, { what: 'fewer' }>, nameOf: (id: string) => string | undefined): string {
  const all = [...formulas, ...products];
  if (all.length === 0) return 'for everything with its step → only for some';
  const names = all.flatMap((one) => nameOf(one) ?? []);
  return `no longer for ${names.length === all.length ? names.join(', ') : `${all.length} that it was for`}`;
}
