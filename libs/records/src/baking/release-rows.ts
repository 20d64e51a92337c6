import { derivedId } from '@bakehouse/kernel';
import type { Change, Rows } from '../base/state.js';

/** The row of a release, and one for each thing that it speaks for. */
export function releaseRows(root: string, release: Rows['release'], subjects: readonly string[]): Change[] {
  return [
    { in: 'release', id: root, row: release },
    ...subjects.map((subject): Change => ({
      in: 'releasedSubject',
      id: derivedId(root, `released ${subject}`),
      row: { batch: release.batch, subject, at: release.at },
    })),
  ];
}
