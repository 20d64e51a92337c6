import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** Imports that break the law, by the rule that must complain about each: `[from, to]`, and further ones for a rule with several arms. */
export const planted: Readonly<Record<string, readonly (readonly [from: string, to: string])[]>> = {
  'no-cycles': [['libs/standards/src/egg.ts', 'libs/standards/src/hen.ts']],
  'kernel-knows-what-is-below': [
    ['libs/kernel/src/up.ts', 'libs/records/src/index.ts'],
    ['libs/kernel/src/impure.ts', 'node_modules/pg/index.js'],
  ],
  'sums-knows-what-is-below': [['libs/sums/src/up.ts', 'libs/records/src/index.ts']],
  'records-knows-what-is-below': [
    ['libs/records/src/up.ts', 'libs/graph/src/index.ts'],
    ['libs/records/src/impure.ts', 'node_modules/react/index.js'],
  ],
  'graph-knows-what-is-below': [['libs/graph/src/up.ts', 'libs/views/src/index.ts']],
  'contracts-knows-what-is-below': [['libs/contracts/src/up.ts', 'libs/graph/src/index.ts']],
  'views-knows-what-is-below': [
    ['libs/views/src/up.ts', 'libs/offline/src/index.ts'],
    ['libs/views/src/impure.ts', 'libs/ledger/src/index.ts'],
  ],
  'ledger-knows-nothing-of-ours': [['libs/ledger/src/ours.ts', 'libs/kernel/src/index.ts']],
  'libs-do-not-reach-up': [['libs/standards/src/up.ts', 'apps/api/src/app.ts']],
  'offline-knows-no-react': [['libs/offline/src/screen.ts', 'node_modules/react/index.js']],
  'platform-knows-no-module': [['apps/api/src/platform/http/up.ts', 'apps/api/src/modules/people/index.ts']],
  'ledger-knows-no-access': [['apps/api/src/platform/ledger/up.ts', 'apps/api/src/platform/access/index.ts']],
  'modules-meet-through-index': [['apps/api/src/modules/plans/inside.ts', 'apps/api/src/modules/people/inner.ts']],
  'papers-use-modules-through-index': [['apps/api/src/papers/recall/inside.ts', 'apps/api/src/modules/people/inner.ts']],
  'modules-know-no-paper': [['apps/api/src/modules/plans/paper.ts', 'apps/api/src/papers/index.ts']],
  'sql-only-in-queries': [
    ['apps/api/src/modules/plans/sql.ts', 'node_modules/pg/index.js'],
    ['apps/api/src/papers/recall/sql.ts', 'node_modules/pg/index.js'],
  ],
  'prisma-only-in-database': [['apps/api/src/modules/plans/prisma.ts', 'apps/api/src/generated/client.ts']],
  'web-shared-is-lowest': [
    ['apps/web/src/shared/up.ts', 'apps/web/src/features/night/night.ts'],
    ['apps/web/src/shared/far-up.ts', 'apps/web/src/shells/index.ts'],
  ],
  'web-features-stay-apart': [
    ['apps/web/src/features/out/aside.ts', 'apps/web/src/features/night/night.ts'],
    ['apps/web/src/features/out/up.ts', 'apps/web/src/shells/index.ts'],
  ],
  'web-knows-no-server': [['apps/web/src/server.ts', 'apps/api/src/app.ts']],
  'product-knows-no-tests': [
    ['apps/web/src/tested.ts', 'test/support/app.ts'],
    ['libs/contracts/src/tested.ts', 'libs/contracts/src/some.spec.ts'],
  ],
};

/** A cycle is complained of once, at its first file. */
const backToEgg = ['libs/standards/src/hen.ts', 'libs/standards/src/egg.ts'] as const;

/** What the law allows, and must go on allowing: an index, a package on the list, an area below. */
export const allowed: readonly (readonly [from: string, to: string])[] = [
  ['libs/records/src/below.ts', 'libs/kernel/src/index.ts'],
  ['libs/views/src/answer.ts', 'libs/contracts/src/index.ts'],
  ['libs/kernel/src/pure.ts', 'node_modules/zod/index.js'],
  ['apps/api/src/modules/plans/index-of-people.ts', 'apps/api/src/modules/people/index.ts'],
  ['apps/api/src/papers/recall/index-of-people.ts', 'apps/api/src/modules/people/index.ts'],
  ['apps/api/src/modules/plans/plans.query.ts', 'node_modules/pg/index.js'],
  ['apps/web/src/features/out/own.ts', 'apps/web/src/shared/ui.ts'],
];

/** A tree in a temporary folder that holds these imports and nothing else. */
export async function plantedTree(): Promise<{ readonly folder: string; remove(): Promise<void> }> {
  const folder = await mkdtemp(path.join(tmpdir(), 'planted-'));
  const imports = [...Object.values(planted).flat(), backToEgg, ...allowed];
  const files = new Map(imports.map(([, to]) => [to, 'export const it = 1;\n']));
  for (const [from, to] of imports) files.set(from, `import { it } from '${relative(from, to)}';\nexport const its = it;\n`);
  for (const [file, text] of files) {
    await mkdir(path.join(folder, path.dirname(file)), { recursive: true });
    await writeFile(path.join(folder, file), text);
  }
  return { folder, remove: () => rm(folder, { recursive: true }) };
}

/** node_modules are named as packages are, the rest by its path. */
function relative(from: string, to: string): string {
  if (to.startsWith('node_modules/')) return path.dirname(to).slice('node_modules/'.length);
  const way = path.relative(path.dirname(from), to);
  return way.startsWith('.') ? way : `./${way}`;
}
