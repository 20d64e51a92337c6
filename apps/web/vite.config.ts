import path from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { precompress } from './build/precompress.ts';
import { serviceOnly } from './build/service-only.ts';
import { shellWorker } from './build/shell-worker.ts';
import { sizeWatch } from './build/size-watch.ts';
import { verifier } from './build/verifier.ts';

const root = import.meta.dirname;
const source = (name: string): string => path.resolve(root, `../../libs/${name}/src/index.ts`);

/** Modules that only the service judges by, with all that they export: lists of what is found. */
const decidedByTheService = {
  '/libs/records/src/plans/loosened-in-state.ts': ['loosenedInForce', 'loosenedProblems', 'asApproved'],
  '/libs/records/src/plans/plan-problems.ts': ['planProblems'],
};

export default defineConfig({
  root,
  plugins: [react(), serviceOnly(decidedByTheService), sizeWatch(260_000), shellWorker(root), verifier(), precompress()],
  resolve: {
    alias: Object.fromEntries(
      ['kernel', 'sums', 'records', 'graph', 'views', 'api-client', 'contracts', 'ledger', 'offline', 'standards'].map((name) => [
        `@bakehouse/${name}`,
        source(name),
      ]),
    ),
  },
  // Inlined modules are refused by the service's content policy, and so are data: fonts.
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 900,
    modulePreload: { polyfill: false },
    rolldownOptions: { treeshake: { moduleSideEffects: (id) => !/\/libs\/[^/]+\/src\//.test(id) } },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:3000' } },
});
