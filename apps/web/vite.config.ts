import { createRequire } from 'node:module';
import path from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { precompress } from './build/precompress.ts';
import { shellWorker } from './build/shell-worker.ts';
import { sizeWatch } from './build/size-watch.ts';
import { verifier } from './build/verifier.ts';

const root = import.meta.dirname;
const source = (name: string): string => path.resolve(root, `../../libs/${name}/src/index.ts`);

export default defineConfig({
  root,
  plugins: [react(), sizeWatch(250_000), shellWorker(root), verifier(), precompress()],
  resolve: {
    alias: {
      ...Object.fromEntries(
        ['kernel', 'sums', 'records', 'graph', 'views', 'api-client', 'contracts', 'ledger', 'offline', 'standards'].map((name) => [
          `@bakehouse/${name}`,
          source(name),
        ]),
      ),
      // Installed beside each library that asks for it: pages load it once.
      '@noble/hashes': path.dirname(createRequire(source('kernel')).resolve('@noble/hashes/sha2.js')),
    },
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
