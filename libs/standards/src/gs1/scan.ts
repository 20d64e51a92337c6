import { readDigitalLink } from './digital-link.js';
import { fnc1, readBracketed, readElementString, type ReadElements } from './element-string.js';

export type ScanForm = 'brackets' | 'element-string' | 'digital-link' | 'plain-key';
export interface Scan extends ReadElements {
  readonly form: ScanForm;
}

/** Symbology identifiers (ISO/IEC 15424) that a scanner may put before the data: those of GS1 symbols, and of plain EAN, UPC and ITF-14. */
const symbology = /^\](C1|e[0-3]|d[12]|Q[13]|J1|E[04]|I1)/;

/** FNC1 as people and programs write it where ASCII 29 cannot be shown; read as FNC1 only where the text has no ASCII 29. */
const fnc1Words = /\[(?:FNC1|GS)\]|\{(?:FNC1|GS)\}|<(?:FNC1|GS)>|\(FNC1\)|\u241d/gi;
/** Spaces and separators around an identifier in brackets: no data has them, so they are only for the reader. */
const aroundBrackets = new RegExp(`[\\s${fnc1}]*(?<!\\\\)(\\(\\d{2,4}\\))[\\s${fnc1}]*`, 'g');

/**
 * Reads what a scanner or a person gives: AIs in brackets, an element string with FNC1 as ASCII 29, or a Digital Link.
 * A bare number is read as a GTIN only where the scanner says that the symbol was a plain one (]E0, ]E4, ]I1).
 */
export function readScan(text: string): Scan {
  const symbol = symbology.exec(text.trim())?.[1];
  const data = text
    .trim()
    .replace(symbology, '')
    .replace(fnc1Words, (word) => (text.includes(fnc1) ? word : fnc1))
    .replace(new RegExp(`^${fnc1}`), '');
  if (symbol === 'E0' || symbol === 'E4' || symbol === 'I1') return { form: 'plain-key', ...plainKey(data) };
  if (/^\s*\(/.test(data)) return { form: 'brackets', ...readBracketed(data.replace(aroundBrackets, '$1').trim()) };
  if (/^https?:/i.test(data)) return { form: 'digital-link', ...readDigitalLink(data) };
  return { form: 'element-string', ...readElementString(data) };
}

function plainKey(digits: string): ReadElements {
  const elements = [{ ai: '01', value: digits.padStart(14, '0') }];
  if (/^(\d{8}|\d{12,14})$/.test(digits)) return { elements, problems: [] };
  return { elements: [], problems: [{ rule: 'form', ai: null, index: null, says: 'a GTIN has 8, 12, 13 or 14 digits' }] };
}
