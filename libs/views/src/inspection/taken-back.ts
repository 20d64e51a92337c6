import { observedText } from '@bakehouse/kernel';
import { openedBy, phrase, type Row, type TakenBack } from '@bakehouse/records';
import { changesOf } from './corrections.js';
import type { VersionRow } from './rows.js';

type Content = Pick<VersionRow, 'entry' | 'kind' | 'input'>;
/** A deviation with the record that it came from: the version that last told of it, and the one that counts now. */
export interface RecordBehind {
  readonly deviation: Pick<Row<'deviation'>, 'id' | 'type'>;
  readonly told: Content;
  readonly now: Content;
  /** What the version that counts now reads about the deviation's subject. */
  readonly readings: readonly Row<'reading'>[];
}

const uuid = /[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/;

/**
 * What became of the record of a deviation, where what it told was taken back: null where it still tells of it. It follows from the version that counts now alone,
 * whatever was done about the deviation before or after. A corrected reading keeps its deviation: whether it is still outside is what it says now.
 */
export function takenBackOf({ deviation, told, now, readings }: RecordBehind, sayOf: (id: string) => string | null): TakenBack | null {
  const { id, type } = deviation;
  if (now.kind === 'entry-withdrawn') return { id, as: 'withdrawn', says: null };
  if (now.entry !== told.entry) return { id, as: 'corrected', says: insteadOf(told, now, sayOf) };
  const [reading] = type === 'limit' || type === 'found-after-release' ? openedBy(readings, id) : [];
  if (!reading || reading.verdict === 'outside') return null;
  return { id, as: 'corrected', says: `${observedText(reading)}, ${phrase(`verdict.${reading.verdict}`)}` };
}

/** Where the two differ, as it stands now: names for ids, and what has none left out. */
function insteadOf(told: Content, now: Content, sayOf: (id: string) => string | null): string | null {
  if (told.input === null || now.input === null) return null;
  const changes = changesOf({ content: told.input.payload }, { content: now.input.payload }, sayOf);
  const said = changes
    .map(({ path, after }) => `${path.filter((step) => step !== 'content' && !uuid.test(step)).join(', ')}: ${after}`)
    .filter((text) => !uuid.test(text));
  return said.length === 0 ? null : said.join('; ');
}
