import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';

const root = path.resolve(import.meta.dirname, '../..');
/** What is read, but for what keeps the old words on purpose: a ledger from before them, and a published table. */
const read = execFileSync('git', ['ls-files', '-z'], { cwd: root, encoding: 'utf8' })
  .split('\0')
  .filter((f) => /\.(ts|tsx|mjs|css|html|prisma|sql|md|json)$/.test(f))
  .filter((f) => !/^test\/fixtures\/ledger-before-words\/|old-ledger|package-lock|architecture\/words\.spec|gs1\/application-id/.test(f))
  .map((file) => ({ file, text: readFileSync(path.join(root, file), 'utf8') }));

interface Gone {
  readonly word: RegExp;
  readonly becomes: string;
  /** Files, or folders ending in a slash, that say it still. They only shrink: one that is not needed any more fails. */
  readonly stillIn?: readonly string[];
}

/** Words that the product gave up, as kinds, fields, identifiers, labels and in prose, and what is said instead. */
const gone: readonly Gone[] = [
  { word: /baked-?by-?from|bakedByFrom/, becomes: 'formula-approved' },
  { word: /put-?away\b|putAway/, becomes: 'formula-retired' },
  { word: /plan-?put-?in-?force|planPutInForce/, becomes: 'plan-approved' },
  { word: /went-wrong|[wW]entWrong/, becomes: 'deviation-reported' },
  { word: /(?<!corrective-)action-taken|(?<!corrective)[aA]ctionTaken/, becomes: 'corrective-action-taken' },
  { word: /lot-held(?!-)|\blotHeld\b/, becomes: 'hold-placed' },
  { word: /lot-freed|lotFreed/, becomes: 'hold-lifted' },
  { word: /lot-decided|lotDecided/, becomes: 'receipt-decided' },
  { word: /point-not-taken|pointNotTaken/, becomes: 'reading-not-taken' },
  { word: /goods-came-back|goodsCameBack/, becomes: 'goods-returned' },
  { word: /probe-checked|probeChecked/, becomes: 'instrument-checked' },
  { word: /recall-call-made|recallCallMade/, becomes: 'recall-contact-made' },
  { word: /even-chemical/, becomes: 'chemical' },
  { word: /runs-it|runsIt|'bakes'|'looks'/, becomes: 'manager, baker, viewer' },
  { word: /held_back|heldBack/, becomes: 'set-aside entries' },
  { word: /npm run ledger/, becomes: 'npm run records' },
  { word: /\b(?:ring|call|telephone) list/, becomes: 'contact list' },
  { word: /How grave/, becomes: 'Class' },
  { word: /What we did/, becomes: 'Corrective action' },
  { word: /Let it go|used as it is/, becomes: 'Disposition' },
  { word: /to be weighed again/, becomes: 'to be confirmed' },
  { word: /keeps? .*\bback\b/, becomes: 'On hold' },
  { word: /free to leave|left by rule/, becomes: 'Ready to release; Released, by rule' },
  { word: /Known how/, becomes: 'How known' },
  { word: /departs from its formula/, becomes: 'Changed from the formula' },
  { word: /How far from the truth/, becomes: 'Accuracy (±)' },
  { word: /Grams a millilitre/, becomes: 'Density' },
  { word: /Shut it out/, becomes: 'Revoke' },
  { word: /something, not nothing/, becomes: 'Required' },
  { word: /Who is here/, becomes: 'Sign on' },
  { word: /Lots without a name|One that nobody can name/, becomes: 'Lots not identified; lot not known' },
  {
    word: /How warm|It rests on/,
    becomes: 'Temperature; Basis (validation)',
  },
  { word: /In: prove|Out: prove/, becomes: 'Into the prover, Out of the prover' },
  { word: /in or through the oven/, becomes: 'baked' },
  { word: /'Porch'|>Porch<|\bLately\b|Open here/, becomes: 'Unattended delivery; Recent entries; Open lots' },
  { word: /'Not found'|>Went<|>There was</, becomes: 'Unaccounted; Used and dispatched; Received or made' },
  { word: /What went into it/, becomes: 'Trace back' },
  { word: /put right afterwards/, becomes: 'Corrections' },
  {
    word: /\bforesee|\bheeds?\b|\bmighty\b/,
    becomes: 'project; limits; superuser',
  },
  { word: /\bmost[A-Z]\w+/, becomes: 'maxX' },
  { word: /\batOnce\b/, becomes: 'concurrency' },
  {
    word: /\b[Ww]hoever\b/,
    becomes: 'somebody who',
  },
  { word: /\blately\b/, becomes: 'recently' },
  { word: /\bunsaid\b/, becomes: 'not said' },
  { word: /as it was to be/, becomes: 'as planned' },
  {
    word: /(?<![.\w]|aria-)sorts?\b(?!\()/,
    becomes: 'type, kind of',
  },
  {
    word: /\b(?:interface|type|class) (?:Asked|Told|Scene|Look)\b/,
    becomes: 'one word, one meaning',
  },
];

const stands = (file: string, where: string): boolean => (where.endsWith('/') ? file.startsWith(where) : file === where);

describe('the words', () => {
  it.each(gone)('$becomes, never $word', ({ word, stillIn = [] }) => {
    const found = read.filter(({ text }) => word.test(text)).map(({ file }) => file);
    expect(found.filter((file) => !stillIn.some((where) => stands(file, where)))).toEqual([]);
    expect(stillIn.filter((where) => !found.some((file) => stands(file, where)))).toEqual([]);
  });

  it('are found where they stand', () => {
    const says = (text: string): string[] => gone.filter(({ word }) => word.test(text)).map(({ becomes }) => becomes);
    expect(says('export const lotFreed = 1;')).toEqual(['hold-lifted']);
    expect(says("kind: 'action-taken'")).toEqual(['corrective-action-taken']);
    expect(says("kind: 'corrective-action-taken', in 'held-lot-used', rows.sort(byTime)")).toEqual([]);
  });
});
