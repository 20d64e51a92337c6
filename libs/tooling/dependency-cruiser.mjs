/** The import law. A test plants an import that breaks each rule, and checks that only that rule complains. */
const module = '^apps/api/src/modules/([^/]+)/';

/** What runs on both tablet and server is pure and in layers: each may import these packages and the layers below it, nothing else. */
const layered = (name, packages, below) => ({
  name: `${name}-knows-what-is-below`,
  severity: 'error',
  comment: 'kernel → sums → records → graph, contracts → views; pure.',
  from: { path: `^libs/${name}/src`, pathNot: '\\.spec\\.ts$' },
  to: {
    path: '^(node_modules|libs|apps)/',
    pathNot: `^(libs/(${[name, ...below].join('|')})/|node_modules/(${['@bakehouse', ...packages].join('|')})/)`,
  },
});

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
  forbidden: [
    {
      name: 'no-cycles',
      severity: 'error',
      comment: 'A cycle has no first file to read.',
      from: { path: '^(libs|apps)/', pathNot: '/generated/' },
      to: { circular: true },
    },
    layered('kernel', ['zod', '@noble/hashes', 'temporal-polyfill', 'temporal-spec', 'decimal\\.js'], []),
    layered('sums', ['zod', 'decimal\\.js', 'jstat'], ['kernel']),
    layered('records', ['zod', '@noble/hashes', 'decimal\\.js'], ['kernel', 'sums']),
    layered('graph', [], ['kernel', 'records']),
    layered('contracts', ['zod'], ['kernel', 'records']),
    layered('views', [], ['kernel', 'sums', 'records', 'graph', 'contracts']),
    {
      name: 'ledger-knows-nothing-of-ours',
      severity: 'error',
      comment: 'An outsider verifies with it.',
      from: { path: '^libs/ledger/src' },
      to: { path: '^(apps|libs)/', pathNot: '^libs/ledger/' },
    },
    {
      name: 'libs-do-not-reach-up',
      severity: 'error',
      comment: 'Libraries know no application.',
      from: { path: '^libs/[^/]+/src' },
      to: { path: '^apps/' },
    },
    {
      name: 'offline-knows-no-react',
      severity: 'error',
      comment: 'The outbox runs without a screen.',
      from: { path: '^libs/offline/src' },
      to: { path: '^node_modules/(react|react-dom)/' },
    },
    {
      name: 'platform-knows-no-module',
      severity: 'error',
      comment: 'modules → platform → libs.',
      from: { path: '^apps/api/src/platform' },
      to: { path: '^apps/api/src/(modules|papers|demo)' },
    },
    {
      name: 'ledger-knows-no-access',
      severity: 'error',
      comment: 'access → ledger: what is written does not depend on how somebody signed on.',
      from: { path: '^apps/api/src/platform/ledger' },
      to: { path: '^apps/api/src/platform/(access|entries)' },
    },
    {
      name: 'modules-meet-through-index',
      severity: 'error',
      comment: 'A module is entered by its index.',
      from: { path: module },
      to: { path: '^apps/api/src/modules/', pathNot: ['^apps/api/src/modules/$1/', '^apps/api/src/modules/[^/]+/index\\.ts$'] },
    },
    {
      name: 'papers-use-modules-through-index',
      severity: 'error',
      comment: 'platform → modules → papers.',
      from: { path: '^apps/api/src/papers' },
      to: { path: '^apps/api/src/modules/', pathNot: '^apps/api/src/modules/[^/]+/index\\.ts$' },
    },
    {
      name: 'modules-know-no-paper',
      severity: 'error',
      comment: 'Every paper has one home, above the modules.',
      from: { path: '^apps/api/src/modules' },
      to: { path: '^apps/api/src/papers' },
    },
    {
      name: 'sql-only-in-queries',
      severity: 'error',
      comment: 'pg stands in *.query.ts and the platform.',
      from: { path: '^apps/api/src/(modules|papers)', pathNot: '\\.query\\.ts$|\\.spec\\.ts$' },
      to: { path: '^node_modules/(pg|@types/pg)/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'prisma-only-in-database',
      severity: 'error',
      comment: 'The generated client is opened in one place.',
      from: { path: '^apps/api/src', pathNot: '^apps/api/src/(platform/database|generated)|\\.query\\.ts$' },
      to: { path: '^apps/api/src/generated' },
    },
    {
      name: 'web-shared-is-lowest',
      severity: 'error',
      comment: 'shared → features → shells.',
      from: { path: '^apps/web/src/shared' },
      to: { path: '^apps/web/src/(features|shells)' },
    },
    {
      name: 'web-features-stay-apart',
      severity: 'error',
      comment: 'No feature imports another.',
      from: { path: '^apps/web/src/features/([^/]+)/' },
      to: { path: '^apps/web/src/(features/(?!$1/)|shells/)' },
    },
    {
      name: 'web-knows-no-server',
      severity: 'error',
      comment: 'Pages speak to the API through contracts.',
      from: { path: '^apps/web/src' },
      to: { path: '^apps/api' },
    },
    {
      name: 'product-knows-no-tests',
      severity: 'error',
      comment: 'Nothing that ships needs the tests.',
      from: { path: '^(apps|libs)/[^/]+/src', pathNot: '\\.spec\\.tsx?$' },
      to: { path: '^test/|\\.spec\\.tsx?$' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)dist/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'libs/tooling/tsconfig.cruise.json' },
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'types', 'default'] },
  },
};
