/// <reference path="./pdfmake.d.ts" />
import { readFileSync } from 'node:fs';
import pdfmake from 'pdfmake';
import roboto from 'pdfmake/fonts/Roboto.js';
import { families, type Cuts } from './families.js';
import { unpacked } from './unpacked.js';

/** pdfmake with the papers' typefaces, which reads their files and nothing else. */
export function withTypefaces(): typeof pdfmake {
  const fonts = { ...families, ...roboto };
  const files = filesOf(fonts);
  for (const file of filesOf(families)) pdfmake.virtualfs.writeFileSync(file, unpacked(readFileSync(file)));
  pdfmake.setFonts(fonts);
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy((file) => files.has(file));
  return pdfmake;
}

const filesOf = (fonts: Readonly<Record<string, Cuts>>): ReadonlySet<string> =>
  new Set(Object.values(fonts).flatMap(({ normal, bold, italics, bolditalics }) => [normal, bold, italics, bolditalics]));
