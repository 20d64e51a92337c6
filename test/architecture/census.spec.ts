import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';

const root = path.resolve(import.meta.dirname, '../..');
/** Written by a tool from the rest: nobody writes these by hand. */
const generated = /\/generated\/|openapi\.json$|\/golden\/|^test\/fixtures\/|^prisma\/schema\/projections\.prisma$/;
const texts = execFileSync('git', ['ls-files', '-z', 'apps', 'libs', 'test'], { cwd: root, encoding: 'utf8' })
  .split('\0')
  .filter((f) => /\.(ts|tsx)$/.test(f) && !generated.test(f) && !/^test\/(architecture|bench)\//.test(f))
  .map((file) => ({ file, text: readFileSync(path.join(root, file), 'utf8') }));

interface Thing {
  readonly what: string;
  readonly aim: number;
  /** How the thing is called in a file, or in the file's own name. */
  readonly named: RegExp;
  /** What somebody has to write or to add a line to for it: without these it is not there, not reached or not tested. */
  readonly files: readonly string[];
  /** What names it for something else: other pages that link there, tests that have it as one of many. */
  readonly alsoNamed: readonly string[];
}

/** One of each, taken from the tree as it is. The compiler names what is left out of most of them. */
const things: readonly Thing[] = [
  {
    what: 'a kind with its page: lots-moved',
    aim: 9,
    named: /lots-moved|lotsMoved|collection\(\s*'moved'|features\/out\/move'|\bmove: '\/table|paths\.move\b/,
    files: [
      'apps/web/src/features/out/move.tsx',
      'apps/web/src/features/out/out.tsx',
      'apps/web/src/shared/night/paths.ts',
      'apps/web/src/shells/table/screens.tsx',
      'libs/records/src/kinds.ts',
      'libs/records/src/rows/stock.ts',
      'libs/records/src/stock/lots-moved.spec.ts',
      'libs/records/src/stock/lots-moved.ts',
      'test/support/every-kind.ts',
    ],
    alsoNamed: [
      'apps/web/src/features/out/stock.tsx',
      'libs/records/src/control/quantity-of.spec.ts',
      'libs/records/src/standing/at-held-place.spec.ts',
      'libs/views/src/stock/in-stock.spec.ts',
      'test/api/clear-lots.spec.ts',
      'test/browser/_every-page.ts',
      'test/support/place-actions.ts',
      'test/support/premises.ts',
    ],
  },
  {
    what: 'a query with a module and two pages of its own: the deliveries of a site',
    aim: 6,
    named: /\bdeliveriesBetween\b|\bGoodsModule\b|\btype Deliveries\b|goods-in\/deliveries'|\boffice\.goods\b|\bgoods: '\/office/,
    files: [
      'apps/api/src/app.module.ts',
      'apps/api/src/modules/goods/goods.controller.ts',
      'apps/api/src/modules/goods/goods.query.ts',
      'apps/api/src/modules/goods/index.ts',
      'apps/web/src/features/goods-in/deliveries.tsx',
      'apps/web/src/features/goods-in/delivery-desk.tsx',
      'apps/web/src/shared/office-paths.ts',
      'apps/web/src/shells/office/office.tsx',
      'libs/contracts/src/goods.ts',
      'test/api/screen-plans.spec.ts',
    ],
    alsoNamed: ['apps/web/src/features/setup/words.ts', 'test/browser/_every-page.ts'],
  },
  {
    what: 'a query of a module that is there, on a page that is there: what would be in doubt if an instrument went out of use',
    aim: 6,
    named: /\bifInstrumentOut|\bIfInstrumentOut\b|instruments\/\{instrument\}\/if-out|if-out\.query/,
    files: [
      'apps/api/src/modules/catalogue/catalogue.controller.ts',
      'apps/api/src/modules/catalogue/if-out.query.ts',
      'apps/web/src/features/catalogue/thing.tsx',
      'libs/contracts/src/catalogue.ts',
      'test/api/instrument-if-out.spec.ts',
    ],
    alsoNamed: [],
  },
  {
    what: 'a paper: the inspection pack',
    aim: 6,
    named: /\bpackPaperOf\b|\bPackController\b|\binspectionPack\b|inspection\/pack\.pdf/,
    files: [
      'apps/api/src/papers/inspection/pack-pdf.ts',
      'apps/api/src/papers/inspection/pack.controller.ts',
      'apps/api/src/papers/papers.module.ts',
      'libs/contracts/src/inspection.ts',
      'test/api/inspection.spec.ts',
    ],
    alsoNamed: [
      'apps/api/src/demo/run/recall.ts',
      'test/api/deviation-of-two-sites.spec.ts',
      'test/api/doubtful-verdicts.spec.ts',
      'test/api/inspected-recalls.spec.ts',
      'test/api/late-reading.spec.ts',
      'test/api/night-over-midnight.spec.ts',
      'test/api/own-shop-counter.spec.ts',
      'test/api/papers-apart.spec.ts',
      'test/api/periods.spec.ts',
      'test/api/plans.spec.ts',
      'test/api/recall-notified.spec.ts',
      'test/api/recall-to-reach.spec.ts',
      'test/api/site-details.spec.ts',
      'test/api/threads-end.spec.ts',
      'test/support/what-is-said.ts',
    ],
  },
];

describe('the files by hand', () => {
  it.each(things)('for $what are these (the aim is $aim)', ({ what, aim, named, files, alsoNamed }) => {
    const found = texts.filter(({ file, text }) => named.test(file) || named.test(text)).map(({ file }) => file);
    process.stdout.write(`${what}: ${files.length} files by hand, the aim is ${aim}; ${alsoNamed.length} more name it\n`);
    expect(found.sort()).toEqual([...files, ...alsoNamed].sort());
  });
});
