import { countText } from '@bakehouse/kernel';

/** How many customers of a case no call has told yet. */
export const toReachText = (left: number): string =>
  left === 0 ? 'no customer still to be reached' : `${countText(left, 'customer')} still to be reached`;

/** What somebody there says is left, beside what went to them by the records. They cannot have more than went there, unless the records lack some of it. */
interface SaysLeft {
  readonly piecesHeld: number;
  readonly pieces: number;
  /** Some of what went there was not counted in pieces, so that any figure may be right. */
  readonly piecesUnknown: boolean;
}

export const moreThanWent = ({ piecesHeld, pieces, piecesUnknown }: SaysLeft): boolean => !piecesUnknown && piecesHeld > pieces;

export const stillThereText = (of: SaysLeft): string =>
  moreThanWent(of)
    ? `says ${of.piecesHeld} are still there, and ${of.pieces} went there by the records: this does not add up, ask again`
    : `still has ${of.piecesHeld}`;
