import { inOrder } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';

/** What has to be looked for before it can be asked whether a batch was released. */
export const releasedNeeds = (batch: string): Need[] => [{ in: 'release', by: 'batch', value: batch }];

/** The release of a batch, as known at an instant, or now: by the rule or by exception, the first of them. Released stays released. */
export const releaseOf = (state: State, batch: string, at: string | null = null): Row<'release'> | undefined =>
  inOrder(state.find('release', 'batch', batch)).find((r) => at === null || r.at <= at);

/** Whether a lot is a batch that nobody had released by then, nor the rule. */
export const unreleased = (state: State, lot: string, at: string): boolean =>
  state.get('lot', lot)?.type === 'batch' && releaseOf(state, lot, at) === undefined;
