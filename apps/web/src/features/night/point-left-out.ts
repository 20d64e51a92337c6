import { dimensionOf, type Unit } from '@bakehouse/kernel';
import { verdictOf, type Observation } from '@bakehouse/records';

/** What somebody may have meant who left the point out: the tenth of a temperature that cannot be right, where that one can. Never taken by itself. */
export function pointLeftOut(figure: string, unit: Unit, measured: Observation['measured']): string | undefined {
  const [, sign = '', digits = ''] = /^(-?)(\d{2,})$/.exec(figure) ?? [];
  if (digits === '' || dimensionOf(unit) !== 'temperature') return undefined;
  const tenth = `${sign}${digits.slice(0, -1)}.${digits.slice(-1)}`;
  return believed(figure, unit, measured) || !believed(tenth, unit, measured) ? undefined : tenth;
}

const believed = (figure: string, unit: Unit, measured: Observation['measured']): boolean =>
  verdictOf({ value: { figure, unit }, yes: null, measured }, null, 0) !== 'not-believable';
