import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { brotliCompressSync, constants, gzipSync } from 'node:zlib';
import type { Plugin } from 'vite';

const gains = /\.(js|css|html|svg|json|webmanifest|ttf|otf|wasm)$/;
/** Below this a file fits a packet as it is. */
const smallestBytes = 1024;

/** As the service sends it to a browser that takes gzip alone. */
export const gzipped = (bytes: Buffer | string): Buffer => gzipSync(bytes, { level: constants.Z_BEST_COMPRESSION });

const ways: readonly (readonly [string, (bytes: Buffer) => Buffer])[] = [
  [
    '.br',
    (bytes) =>
      brotliCompressSync(bytes, {
        params: { [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length },
      }),
  ],
  ['.gz', gzipped],
];

/** Writes a brotli and a gzip copy beside every file of the build that gets smaller by it: the service sends the one that a browser takes. */
export function precompress(): Plugin {
  let folder = '';
  return {
    name: 'precompress',
    apply: 'build',
    configResolved(config) {
      folder = path.resolve(config.root, config.build.outDir);
    },
    closeBundle: {
      sequential: true,
      order: 'post',
      handler() {
        for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
          if (!entry.isFile() || !gains.test(entry.name)) continue;
          const file = path.join(entry.parentPath, entry.name);
          const bytes = readFileSync(file);
          if (bytes.length < smallestBytes) continue;
          for (const [ending, compress] of ways) {
            const smaller = compress(bytes);
            if (smaller.length < bytes.length * 0.9) writeFileSync(`${file}${ending}`, smaller);
          }
        }
      },
    },
  };
}
