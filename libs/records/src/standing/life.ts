import { latest } from '@bakehouse/kernel';
import type { Need, State } from '../base/state.js';

const hourMs = 3_600_000;

/** What has to be looked for before `lifeEnds` can be asked of a lot: ask again until it names nothing new. */
export function lifeNeeds(state: State, lot: string): Need[] {
  const make = state.knows({ in: 'make', id: lot }) ? state.get('make', lot) : undefined;
  return [
    { in: 'make', id: lot },
    { in: 'makeEnded', by: 'make', value: lot },
    ...(make ? [{ in: 'formulaVersion', id: make.formulaVersion } satisfies Need] : []),
  ];
}

/** Until when what was made here keeps, by the formula that it was made by: from when it was ended, or else begun. Null where none says. */
export function lifeEnds(state: State, lot: string): string | null {
  const make = state.get('make', lot);
  const hours = make ? (state.get('formulaVersion', make.formulaVersion)?.content.lifeHours ?? null) : null;
  if (!make || hours === null) return null;
  const from = latest(state.find('makeEnded', 'make', lot))?.at ?? make.at;
  return new Date(Date.parse(from) + hours * hourMs).toISOString();
}
