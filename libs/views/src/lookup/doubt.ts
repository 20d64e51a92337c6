import type { DoubtView } from '@bakehouse/contracts';
import { doubtAbout, type ReadWith, type State } from '@bakehouse/records';

/** Why a reading cannot be trusted, or null. Needs `trustNeeds` and the instrument. */
export function doubtOn({ state }: { readonly state: State }, reading: ReadWith): DoubtView | null {
  const doubt = doubtAbout(state, reading);
  return doubt && { why: doubt.why, instrument: doubt.name ?? state.get('instrument', doubt.instrument)?.name ?? null, at: doubt.at };
}

/** In words; `when` is when it failed or was taken out of use, as the reader's page writes times. */
export const doubtText = ({ why, instrument }: DoubtView, when: string): string =>
  `to be confirmed: ${instrument ?? 'the instrument'} ${why === 'failed-check' ? 'failed its check on' : 'was taken out of use on'} ${when}`;
