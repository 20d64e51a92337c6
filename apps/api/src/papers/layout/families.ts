import { createRequire } from 'node:module';

const { resolve } = createRequire(import.meta.url);

/** Headings and large figures, text, and codes: of each the Latin letters, and in a file of their own (“More”) those of central Europe and Turkey. */
export type Family = 'Head' | 'Text' | 'Code';

/** Everything else that can be printed (Greek, Cyrillic, Vietnamese, signs such as ≥) stands in this one. */
export const otherFamily = 'Roboto';

export interface Cuts {
  readonly normal: string;
  readonly bold: string;
  readonly italics: string;
  readonly bolditalics: string;
}

function cutsOf(name: string, letters: 'latin' | 'latin-ext', of: Readonly<Record<keyof Cuts, string>>): Cuts {
  const file = (cut: string): string => resolve(`@fontsource/${name}/files/${name}-${letters}-${cut}.woff`);
  return { normal: file(of.normal), bold: file(of.bold), italics: file(of.italics), bolditalics: file(of.bolditalics) };
}

const withItalics = { normal: '400-normal', bold: '700-normal', italics: '400-italic', bolditalics: '700-italic' };
const alwaysBold = { normal: '700-normal', bold: '700-normal', italics: '700-normal', bolditalics: '700-normal' };

/** What is embedded, beside the other family, as pdfmake names it. */
export const families: Readonly<Record<Family | `${Family}More`, Cuts>> = {
  Head: cutsOf('bricolage-grotesque', 'latin', alwaysBold),
  HeadMore: cutsOf('bricolage-grotesque', 'latin-ext', alwaysBold),
  Text: cutsOf('atkinson-hyperlegible-next', 'latin', withItalics),
  TextMore: cutsOf('atkinson-hyperlegible-next', 'latin-ext', withItalics),
  Code: cutsOf('atkinson-hyperlegible-mono', 'latin', withItalics),
  CodeMore: cutsOf('atkinson-hyperlegible-mono', 'latin-ext', withItalics),
};
