/**
 * Since when dealing with a party is stopped, of a row of `party` as it is known now; null where it is not, or was taken up again since. $1 is the organisation. At the door it is
 * `isStopped` of the records.
 */
export const stoppedSince = (party: string): string =>
  `(SELECT max(s.at) FROM party_stopped s WHERE s.organisation = $1 AND s.party = ${party}.party AND s.at >= ${party}.since)`;
