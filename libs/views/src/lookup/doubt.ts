import type { Doubt } from '@bakehouse/records';

/** Why a reading cannot be trusted, as a screen or a paper says it. */
export interface DoubtView {
  readonly why: Doubt['why'];
  readonly instrument: string | null;
  readonly at: string;
}

/** The instrument is named as it was called when it failed, or else as it is called now. */
export const doubtView = (doubt: Doubt, called: string | null): DoubtView => ({
  why: doubt.why,
  instrument: doubt.name ?? called,
  at: doubt.at,
});

/** In words; `when` is when it failed or was taken out of use, as the reader's page writes times. */
export const doubtText = ({ why, instrument }: DoubtView, when: string): string =>
  `to be confirmed: ${instrument ?? 'the instrument'} ${why === 'failed-check' ? 'failed its check on' : 'was taken out of use on'} ${when}`;
