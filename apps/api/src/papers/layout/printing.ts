/// <reference path="./pdfmake.d.ts" />
import pdfmake from 'pdfmake';
import roboto from 'pdfmake/fonts/Roboto.js';
import { families } from './families.js';

/** pdfmake with the papers' typefaces, which reads their files and nothing else. */
export function withTypefaces(): typeof pdfmake {
  const fonts = { ...families, ...roboto };
  const files = new Set(Object.values(fonts).flatMap(({ normal, bold, italics, bolditalics }) => [normal, bold, italics, bolditalics]));
  pdfmake.setFonts(fonts);
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy((file) => files.has(file));
  return pdfmake;
}
