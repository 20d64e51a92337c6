import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Plugin } from 'vite';

/** Writes the service worker with the names of all files of this build in it, so that the whole app starts without a network. */
export function shellWorker(root: string): Plugin {
  return {
    name: 'shell-worker',
    apply: 'build',
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const files = [
          '/',
          ...Object.keys(bundle)
            .filter((name) => name !== 'index.html' && !name.endsWith('.map'))
            .map((name) => `/${name}`),
          '/manifest.webmanifest',
          '/icon.svg',
        ].sort();
        const whole = createHash('sha256');
        for (const output of Object.values(bundle)) whole.update(output.type === 'chunk' ? output.code : output.source);
        const source = readFileSync(path.join(root, 'build/shell-worker.js'), 'utf8')
          .replace('__FILES__', JSON.stringify(files))
          .replace('__VERSION__', whole.digest('hex').slice(0, 16));
        this.emitFile({ type: 'asset', fileName: 'sw.js', source });
      },
    },
  };
}
