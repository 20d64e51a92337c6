import { byText } from '@bakehouse/kernel';
import { heldPlaces, type HeldPlace, type State } from '@bakehouse/records';

/** The places on hold at an instant: what comes there now is on hold as well. The newest first. */
export const placesOnHold = (state: State, at: string): HeldPlace[] =>
  heldPlaces(state, at)
    .filter((h) => h.over === null || h.over > at)
    .sort((a, b) => byText(b.at, a.at) || byText(a.id, b.id));
