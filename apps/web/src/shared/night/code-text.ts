import { phrase } from '@bakehouse/records';
import { type LotCode } from '@bakehouse/views';

/** A lot's code as it is said, or in words that there is none. */
export const codeText = ({ code, known }: LotCode): string =>
  code === null ? phrase(`codeState.${known === 'named-later' ? 'not-known-yet' : known}`) : code;
