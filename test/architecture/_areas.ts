import type { Cruise } from './_cruise.js';

/** One part of the tree, its areas named from the top down: an area may import what stands below its row, never what stands above or beside it. */
export interface Part {
  readonly part: string;
  /** The area of a file of this part; undefined where it is none of it. */
  readonly areaOf: (file: string) => string | undefined;
  readonly order: readonly (readonly string[])[];
}

const folderUnder =
  (root: string, loose = '(top)') =>
  (file: string): string | undefined => {
    if (!file.startsWith(root)) return undefined;
    const [first = '', ...rest] = file.slice(root.length).split('/');
    return rest.length > 0 ? first : loose;
  };

const apiArea = folderUnder('apps/api/src/');
const webArea = (file: string): string | undefined => {
  const under = folderUnder('apps/web/src/')(file);
  return under === 'features' ? folderUnder('apps/web/src/features/')(file) : under;
};

/** The order, declared here and nowhere else. */
export const parts: readonly Part[] = [
  {
    part: 'libs',
    areaOf: folderUnder('libs/'),
    order: [
      ['tooling'],
      ['offline', 'views'],
      ['contracts', 'api-client', 'graph'],
      ['records', 'standards'],
      ['sums'],
      ['kernel', 'ledger'],
    ],
  },
  {
    part: 'libs/records/src',
    areaOf: (file) => (file === 'libs/records/src/kinds.ts' ? 'kinds' : folderUnder('libs/records/src/')(file)),
    order: [
      ['(top)'],
      ['phrases'],
      ['kinds'],
      ['baking', 'drafts', 'corrections', 'inspection', 'recalls', 'closing'],
      ['makes', 'formulas', 'plans', 'out'],
      ['stock', 'catalogue', 'people', 'sites'],
      ['standing'],
      ['control'],
      ['base'],
      ['rows'],
    ],
  },
  {
    part: 'libs/views/src',
    areaOf: folderUnder('libs/views/src/'),
    order: [
      ['(top)'],
      ['trace', 'plans'],
      ['night', 'stock', 'counter', 'recall', 'formulas', 'inspection', 'catalogue', 'setup', 'sheet', 'trends'],
      ['lookup', 'standing'],
    ],
  },
  {
    part: 'apps/api/src',
    areaOf: (file) => {
      const area = apiArea(file);
      if (area !== '(top)') return area;
      return /\/(app|app\.module)\.ts$/.test(file) ? 'app' : /command\.ts$/.test(file) ? 'commands' : 'start';
    },
    order: [['start'], ['demo'], ['commands', 'app'], ['papers'], ['modules'], ['platform'], ['generated']],
  },
  {
    part: 'apps/api/src/platform',
    areaOf: folderUnder('apps/api/src/platform/'),
    order: [
      ['(top)'],
      ['health', 'entries', 'jobs'],
      ['access', 'backups'],
      ['ledger'],
      ['threads'],
      ['database', 'http'],
      ['clock', 'config', 'ids', 'errors', 'metrics'],
    ],
  },
  {
    part: 'apps/api/src/modules',
    areaOf: folderUnder('apps/api/src/modules/'),
    order: [
      ['setup', 'search', 'trends'],
      ['inspection', 'recalls', 'plans', 'counter', 'witness'],
      ['catalogue'],
      ['trace', 'formulas', 'seals', 'people'],
      ['drafts', 'calculate', 'doctor', 'goods', 'night', 'photos'],
      ['standing'],
    ],
  },
  {
    part: 'apps/web/src',
    areaOf: webArea,
    order: [
      ['(top)'],
      ['shells'],
      [
        'catalogue',
        'checks',
        'counter',
        'formulas',
        'goods-in',
        'house',
        'inspection',
        'night',
        'out',
        'plans',
        'readings',
        'recall',
        'setup',
        'trace',
      ],
      ['shared'],
      ['ui'],
    ],
  },
];

export interface Arrow {
  readonly from: string;
  readonly to: string;
  /** One import that makes it: what to look at. */
  readonly example: string;
}

/** The arrows between the areas of a part, from every import of the product, those of types too. */
export function arrowsOf({ areaOf }: Part, cruise: Cruise): Arrow[] {
  const arrows = new Map<string, Arrow>();
  for (const { source, dependencies } of cruise.modules) {
    const from = /\.spec\.tsx?$|\/build\/|\/bin\//.test(source) ? undefined : areaOf(source);
    if (from === undefined) continue;
    for (const { resolved } of dependencies) {
      const to = areaOf(resolved);
      if (to !== undefined && to !== from) arrows.set(`${from} → ${to}`, { from, to, example: `${source} → ${resolved}` });
    }
  }
  return [...arrows.values()];
}

/** Arrows that do not run down. */
export function wrongWay({ order }: Part, arrows: readonly Arrow[]): string[] {
  const row = new Map(order.flatMap((areas, i) => areas.map((area) => [area, i] as const)));
  return arrows
    .filter(({ from, to }) => (row.get(to) ?? -1) <= (row.get(from) ?? Infinity))
    .map(({ from, to, example }) => `${from} → ${to}: ${example}`)
    .sort();
}

/** The drawing, from the top row down: areas of a row that import the same stand on one line, before what they import. */
export function drawn({ part, order }: Part, arrows: readonly Arrow[]): string {
  const inOrder = order.flat();
  const below = (area: string): string => inOrder.filter((to) => arrows.some((a) => a.from === area && a.to === to)).join(' ');
  const lines = order.flatMap((row) =>
    [...new Set(row.map(below))].map((targets) => {
      const areas = row.filter((area) => below(area) === targets).join(' ');
      return targets === '' ? `  ${areas}` : `  ${areas} → ${targets}`;
    }),
  );
  return [part, ...lines].join('\n');
}
