import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';

const root = path.resolve(import.meta.dirname, '../..');
/** What is read, but for what keeps the old words on purpose: a ledger from before them, and a published table. */
const read = execFileSync('git', ['ls-files', '-z'], { cwd: root, encoding: 'utf8' })
  .split('\0')
  .filter((f) => /\.(ts|tsx|mjs|css|html|prisma|sql|md|json)$/.test(f))
  .filter((f) => !/^test\/fixtures\/ledger-before-words\/|package-lock|architecture\/words\.spec|gs1\/application-id/.test(f))
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
  {
    word: /\b(?:ring|call|telephone) list/,
    becomes: 'contact list',
    stillIn: [
      'apps/api/src/papers/recall/recall-papers.controller.ts',
      'libs/api-client/openapi.json',
      'libs/api-client/src/generated/types.ts',
    ],
  },
  { word: /How grave/, becomes: 'Class', stillIn: ['apps/web/src/features/plans/point-editor.tsx'] },
  {
    word: /What we did/,
    becomes: 'Corrective action',
    stillIn: ['apps/web/src/features/night/deviation.tsx', 'apps/web/src/features/night/reading-result.tsx'],
  },
  {
    word: /Let it go|used as it is/,
    becomes: 'Disposition',
    stillIn: ['apps/web/src/features/night/batch.tsx', 'test/browser/night.spec.ts'],
  },
  { word: /keeps? .*\bback\b/, becomes: 'On hold', stillIn: ['apps/api/', 'apps/web/', 'libs/records/', 'test/api/'] },
  {
    word: /free to leave|left by rule/,
    becomes: 'Ready to release; Released, by rule',
    stillIn: [
      'apps/web/src/features/night/batch-state.tsx',
      'apps/web/src/features/out/left.tsx',
      'libs/views/src/night/batches.ts',
      'test/browser/night.spec.ts',
    ],
  },
  {
    word: /Known how/,
    becomes: 'How known',
    stillIn: [
      'apps/web/src/features/night/amount-sheet.tsx',
      'apps/web/src/features/night/make.tsx',
      'apps/web/src/features/night/weigh.tsx',
      'apps/web/src/features/out/send.tsx',
    ],
  },
  {
    word: /departs from its formula/,
    becomes: 'Changed from the formula',
    stillIn: ['apps/web/src/features/night/adjust-make.tsx', 'libs/records/src/makes/one-off-changed.ts'],
  },
  { word: /How far from the truth/, becomes: 'Accuracy (±)', stillIn: ['apps/web/src/features/catalogue/new-place.tsx'] },
  { word: /Grams a millilitre/, becomes: 'Density', stillIn: ['apps/web/src/features/catalogue/specification-form.tsx'] },
  { word: /Shut it out/, becomes: 'Revoke', stillIn: ['apps/web/src/features/house/tablets.tsx'] },
  {
    word: /something, not nothing/,
    becomes: 'Required',
    stillIn: ['libs/records/src/drafts/what-is-missing.spec.ts', 'libs/records/src/drafts/what-is-missing.ts', 'test/browser/plan.spec.ts'],
  },
  {
    word: /Who is here/,
    becomes: 'Sign on',
    stillIn: ['apps/web/src/shells/sign-on/names.tsx', 'test/browser/inspector.spec.ts', 'test/browser/two-sites.spec.ts'],
  },
  {
    word: /Lots without a name|One that nobody can name/,
    becomes: 'Lots not identified; lot not known',
    stillIn: ['apps/web/src/features/goods-in/to-name.tsx', 'apps/web/src/features/night/open-sheet.tsx'],
  },
  {
    word: /How warm|It rests on/,
    becomes: 'Temperature; Basis (validation)',
    stillIn: ['apps/api/', 'apps/web/', 'libs/api-client/', 'libs/records/', 'test/browser/'],
  },
  { word: /In: prove|Out: prove/, becomes: 'Into the prover, Out of the prover' },
  {
    word: /in or through the oven/,
    becomes: 'baked',
    stillIn: ['apps/web/src/features/night/make.tsx', 'apps/web/src/features/night/run.tsx', 'apps/web/src/features/night/today.tsx'],
  },
  {
    word: /'Porch'|>Porch<|\bLately\b|Open here/,
    becomes: 'Unattended delivery; Recent entries; Open lots',
    stillIn: ['apps/web/', 'test/browser/'],
  },
  {
    word: /'Not found'|>Went<|>There was</,
    becomes: 'Unaccounted; Used and dispatched; Received or made',
    stillIn: [
      'apps/api/src/papers/recall/house-sections.ts',
      'apps/api/src/papers/recall/recall-xlsx.ts',
      'apps/web/src/shared/trace/balance.tsx',
      'test/api/papers.spec.ts',
    ],
  },
  { word: /What went into it/, becomes: 'Trace back', stillIn: ['apps/web/src/features/trace/lot.tsx'] },
  {
    word: /put right afterwards/,
    becomes: 'Corrections',
    stillIn: ['apps/web/src/features/inspection/corrections.tsx', 'apps/web/src/features/inspection/inspection.tsx'],
  },
  {
    word: /\bforesee|\bheeds?\b|\bmighty\b/,
    becomes: 'project; limits; superuser',
    stillIn: ['apps/api/src/platform/database/roles.ts', 'test/api/access-fence.spec.ts'],
  },
  { word: /\bmost[A-Z]\w+/, becomes: 'maxX' },
  { word: /\batOnce\b/, becomes: 'concurrency', stillIn: ['apps/api/src/demo/player.ts', 'apps/api/src/platform/access/pin-hash.ts'] },
  {
    word: /\b[Ww]hoever\b/,
    becomes: 'somebody who',
    stillIn: [
      'DEVELOPERS.md',
      'apps/api/',
      'apps/web/',
      'libs/api-client/',
      'libs/contracts/',
      'libs/kernel/',
      'libs/ledger/',
      'libs/offline/',
      'libs/records/',
      'libs/standards/',
      'libs/tooling/',
      'libs/views/',
      'prisma/migrations/',
      'prisma/schema/',
      'test/api/',
      'test/browser/',
      'test/faults/',
      'test/support/',
    ],
  },
  {
    word: /\blately\b/,
    becomes: 'recently',
    stillIn: [
      'apps/web/src/features/night/recent.tsx',
      'libs/offline/src/store/saved-entry.ts',
      'libs/offline/src/tablet-state.ts',
      'libs/offline/src/tablet.ts',
      'test/browser/night.spec.ts',
    ],
  },
  {
    word: /\bunsaid\b/,
    becomes: 'not said',
    stillIn: [
      'libs/records/src/control/corrective-action-taken.ts',
      'libs/records/src/makes/one-off-changed.ts',
      'libs/records/src/stock/receipt-decided.ts',
    ],
  },
  { word: /as it was to be/, becomes: 'as planned', stillIn: ['apps/api/src/modules/drafts/drafts.service.ts'] },
  {
    word: /(?<![.\w])sorts?\b(?!\()/,
    becomes: 'type, kind of',
    stillIn: [
      'DEVELOPERS.md',
      'README.md',
      'apps/api/',
      'apps/web/',
      'libs/api-client/',
      'libs/offline/',
      'libs/records/',
      'test/browser/',
    ],
  },
  {
    word: /\b(?:Asked|Told|Scene|Look)\b/,
    becomes: 'one word, one meaning',
    stillIn: ['apps/api/', 'apps/web/', 'libs/kernel/', 'libs/records/', 'libs/views/', 'test/fixtures/', 'test/support/'],
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
