import { followKeys, readKeyChange, readVerifierKey, textOfNote, type KeyFinding, type KeyTurn } from '@bakehouse/ledger';
import type { TableRow } from '../database/index.js';
import { about, type Finding } from './findings.js';

export type KeyRow = Pick<TableRow<'keyChange'>, 'turn' | 'size' | 'note'>;

const faults: Readonly<Record<Exclude<KeyFinding, 'good' | 'lost'>, string>> = {
  'malformed-statement': 'it cannot be read',
  'another-origin': 'it is about another book',
  'malformed-note': 'its note cannot be read',
  'malformed-key': 'its key cannot be read',
  'not-signed-by-key': 'it is not signed by the key before',
  'signature-wrong': 'it was changed after it was signed',
  'does-not-follow': 'it does not go on from the one before it, or does not lead to the one after it or to the key here',
};

/**
 * What was said of a book's keys: what is wrong with it, and the keys one after the other. Without a key here the last statement's is taken, which tells only
 * whether the statements fit each other. `turns` is undefined where there is nothing to check a signature with.
 */
export function readKeys(
  rows: readonly KeyRow[],
  origin: string,
  here: string | undefined,
): { readonly found: readonly Finding[]; readonly turns: readonly KeyTurn[] | undefined } {
  const last = readKeyChange(textOfNote(rows.at(-1)?.note ?? '') ?? '');
  const key = here ?? (readVerifierKey(last?.to ?? '')?.name === origin ? last?.to : undefined);
  if (key === undefined) return { found: rows.map((row) => forged(row, 'malformed-statement')), turns: undefined };
  const { found, turns } = followKeys(
    rows.map(({ note }) => note),
    key,
  );
  const findings = rows.flatMap((row, i) => {
    const one = found[i];
    if (row.turn !== i) return [about('key-change-forged', `a statement about the keys is gone before number ${row.turn}`)];
    if (one === undefined) return [];
    if (one.finding === 'lost') return [about('key-lost', `the key for seals was said to be lost after ${row.size} entries`)];
    if (one.finding !== 'good') return [forged(row, one.finding)];
    return one.size === row.size
      ? []
      : [about('key-change-forged', `statement ${i} about the keys: it is about ${one.size} entries, and ${row.size} stands beside it`)];
  });
  return { found: findings, turns: here === undefined ? undefined : turns };
}

const forged = ({ turn }: KeyRow, why: keyof typeof faults): Finding =>
  about('key-change-forged', `statement ${turn} about the keys: ${faults[why]}`);
