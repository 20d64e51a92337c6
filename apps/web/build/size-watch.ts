import type { Plugin } from 'vite';
import { gzipped } from './precompress.ts';

/** Fails the build when what a tablet loads before its first screen grows beyond a limit, in bytes as they are sent with gzip. */
export function sizeWatch(limit: number): Plugin {
  return {
    name: 'size-watch',
    apply: 'build',
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const chunks = Object.values(bundle).flatMap((output) => (output.type === 'chunk' ? [output] : []));
        const entry = chunks.find((chunk) => chunk.isEntry);
        const first = new Set(entry ? [entry.fileName, ...entry.imports] : []);
        const bytes = chunks.filter((chunk) => first.has(chunk.fileName)).reduce((sum, chunk) => sum + gzipped(chunk.code).length, 0);
        this.info(`first load ${(bytes / 1000).toFixed(1)} kB of JavaScript after gzip, limit ${(limit / 1000).toFixed(0)} kB`);
        if (bytes > limit) this.error(`the first load grew beyond its limit: ${bytes} bytes after gzip, ${limit} allowed`);
      },
    },
  };
}
