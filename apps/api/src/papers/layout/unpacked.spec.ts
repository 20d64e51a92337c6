import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from '@jest/globals';
import { families } from './families.js';
import { unpacked } from './unpacked.js';

const files = [...new Set(Object.values(families).flatMap((cuts) => Object.values(cuts)))];
const { resolve } = createRequire(import.meta.url);

/** OpenType 1.9, “Calculating Checksums”: the sum of a table's 32-bit words. */
const checksum = (table: Buffer): number => {
  const whole = Buffer.concat([table, Buffer.alloc((4 - (table.length % 4)) % 4)]);
  let sum = 0;
  for (let at = 0; at < whole.length; at += 4) sum = (sum + whole.readUInt32BE(at)) >>> 0;
  return sum;
};

describe('a typeface, unpacked', () => {
  it.each(files.map((file) => [file.replace(/^.*\//, ''), file] as const))(
    '%s has each table as its checksum says, in order, each in its place',
    (_, file) => {
      const woff = readFileSync(file);
      const font = unpacked(woff);
      expect([font.subarray(0, 4), font.length]).toEqual([woff.subarray(4, 8), woff.readUInt32BE(16)]); // flavour and totalSfntSize of the WOFF's head
      const tables = Array.from({ length: font.readUInt16BE(4) }, (__, n) => {
        const [tag, of, at, length] = [
          font.toString('latin1', 12 + n * 16, 16 + n * 16),
          ...[4, 8, 12].map((i) => font.readUInt32BE(12 + n * 16 + i)),
        ];
        return { tag, of, bytes: font.subarray(at, (at ?? 0) + (length ?? 0)) };
      });
      expect(tables.length).toBeGreaterThan(8);
      // that of 'head' is counted without the sum of the whole font, which stands in it
      for (const { tag, of, bytes } of tables) {
        const counted = tag === 'head' ? Buffer.concat([bytes.subarray(0, 8), Buffer.alloc(4), bytes.subarray(12)]) : bytes;
        expect([tag, checksum(counted)]).toEqual([tag, of]);
      }
    },
  );

  it('is not made of what is none', () => {
    expect(() => unpacked(readFileSync(resolve('pdfmake/fonts/Roboto/Roboto-Regular.ttf')))).toThrow('not a WOFF 1.0 file');
  });
});
