/** What a finding asks for: nothing; something to be put right, while what was recorded stands; or that somebody looks into changed evidence. */
export type Severity = 'told' | 'put-right' | 'evidence';

interface FindingKind {
  readonly severity: Severity;
  readonly means: string;
  readonly todo: string;
}

const keep =
  'Change nothing, keep a copy of the database as it is, and compare with the last good backup and with seals that left the house.';
const evidence = (means: string, todo = keep): FindingKind => ({ severity: 'evidence', means, todo });
const putRight = (means: string, todo: string): FindingKind => ({ severity: 'put-right', means, todo });

/** Every type of finding: how much it matters, what it means, and what to do. */
export const findingKinds = {
  edited: evidence('What an entry says was changed after it was recorded.'),
  missing: evidence('An entry that was recorded is gone.'),
  reordered: evidence('An entry stands where it was not recorded.'),
  'written-twice': evidence('One entry was put in the place of another.'),
  'not-canonical': evidence('The bytes of an entry are not as this program writes them.'),
  unreadable: evidence('An entry can no longer be read by its kind.'),
  'word-edited': evidence('A text beside an entry is not the one that was saved with it.'),
  'word-gone': putRight(
    'A text that belongs to an entry is gone, and nothing on record says that it was taken away.',
    'Put it back from a backup, where it is not meant to be gone. The entry itself is untouched.',
  ),
  'word-erased': { severity: 'told', means: 'Erased because somebody asked for it, on record.', todo: 'Nothing.' },
  'word-back': putRight(
    'A text that was erased, on record, is there again.',
    'Find out how it came back, and erase it again: npm run records -- erase.',
  ),
  'body-withheld': { severity: 'told', means: 'Withheld by retention, on record.', todo: 'Nothing.' },
  'body-removed': evidence('What an entry says was taken away, and no record of a withholding covers it.'),
  'head-differs': evidence('What stands at the head of a book is not what its entries give: it was set back, or changed.'),
  'tree-differs': evidence('The entries are not those from which the head of the book was worked out.'),
  'cut-back': evidence('A seal was made over more entries than are there now: the end of the book was cut off.'),
  'seal-differs': evidence('Entries that were sealed are not those that are there now.'),
  'seal-forged': evidence(
    'A seal is not as the service signed it.',
    `${keep} Where the key for seals was changed on purpose, check with the key of that time.`,
  ),
  'seal-gone': evidence('A seal that was made is not there any more.'),
  'key-change-forged': evidence(
    'A statement about the keys for seals is not as the key before signed it, or does not lead to the key here.',
    `${keep} Where another key than the last is here, run this with the one that the last change made.`,
  ),
  'key-lost': {
    severity: 'told',
    means: 'The key for seals was said to be lost: nothing that was signed before vouches for the key after it.',
    todo: 'Compare the key with one that somebody outside was given in person, and seals from before with those that had left the house.',
  },
  'seal-unchecked': putRight(
    'There is no key for seals here, so their signatures were not checked; all else about them was.',
    'Run this where the key is: with SEAL_KEY, or with the DATA_DIR of the service.',
  ),
  'left-behind': evidence('Something stands here that belongs to an entry that is gone.'),
  'sending-differs': evidence('How an entry came to the service is gone, or is not what the entry says.'),
  'signature-differs': evidence('The signature that was given and the entry that carries it do not fit each other.'),
  'photo-edited': evidence('A photo is not the one that was kept under its name.'),
  'book-gone': evidence('Something belongs to a book that is gone, or never was.'),
  'projection-differs': putRight(
    'What screens and papers show is not what the entries say.',
    'Once nothing of the other types is found: npm run records -- rebuild.',
  ),
  'note-differs': putRight(
    'A working note hides something that is open from screens and decisions.',
    'npm run records -- rebuild makes these notes anew.',
  ),
  'protection-differs': putRight(
    'A lock on the database is not as this program made it: what it kept from happening may have happened.',
    'Find out who changed it. Make it again as the owner, as prisma/protection.txt and the migrations have it, and verify again.',
  ),
} as const satisfies Readonly<Record<string, FindingKind>>;

export type FindingType = keyof typeof findingKinds;
export interface Finding {
  readonly type: FindingType;
  readonly seq: number | null;
  readonly entry: string | null;
  readonly detail: string;
}

export const severityOf = ({ type }: Pick<Finding, 'type'>): Severity => findingKinds[type].severity;

/** Withheld by retention, and erased on request, is said, and is no fault. */
export const isFault = (f: Finding): boolean => severityOf(f) !== 'told';

const codes: Readonly<Record<Severity, number>> = { told: 0, 'put-right': 1, evidence: 2 };

/** The exit code of a verification: that of the worst that was found. */
export const exitCodeOf = (findings: readonly Pick<Finding, 'type'>[]): number =>
  findings.reduce((worst, f) => Math.max(worst, codes[severityOf(f)]), 0);

/** A finding about a whole book, or about what belongs to no book. */
export const about = (type: FindingType, detail: string, at: Partial<Pick<Finding, 'seq' | 'entry'>> = {}): Finding => ({
  type,
  seq: at.seq ?? null,
  entry: at.entry ?? null,
  detail,
});
