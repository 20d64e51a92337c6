import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
import { filledOf, type FilledPage } from './read-papers.js';

const dots = 2; // a point: a module of a code is two points wide or more

/** Has zxing load itself from disk: it would be fetched otherwise. */
export function readFromDisk(): void {
  const wasm = readFileSync(createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm'));
  prepareZXingModule({ overrides: { wasmBinary: wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength) } });
}

/** What a telephone's camera reads of the codes on a PDF's pages, in their order: by zxing, which shares nothing with what draws them. */
export async function scannedFrom(pdf: Buffer): Promise<string[]> {
  readFromDisk();
  const read: string[] = [];
  for (const page of await filledOf(pdf)) {
    const codes = await readBarcodes(pictureOf(page), { formats: ['QRCode'] });
    read.push(...codes.sort((a, b) => a.position.topLeft.y - b.position.topLeft.y).map(({ text }) => text));
  }
  return read;
}

function pictureOf({ width, height, filled }: FilledPage) {
  const [wide, high] = [Math.ceil(width * dots), Math.ceil(height * dots)];
  const data = new Uint8ClampedArray(wide * high * 4).fill(255);
  for (const { colour, at } of filled) {
    const [left = 0, top = 0, right = 0, bottom = 0] = at.map((points) => Math.round(points * dots));
    for (let y = Math.max(0, top); y < Math.min(high, bottom); y += 1)
      data.fill(colour === '#000000' ? 0 : 255, (y * wide + Math.max(0, left)) * 4, (y * wide + Math.min(wide, right)) * 4);
  }
  return { data, width: wide, height: high, colorSpace: 'srgb' as const };
}
