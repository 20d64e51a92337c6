import type { Calculation } from '@bakehouse/sums';
import { gs1CheckDigit } from './check-digit-calculation.js';
import { gs1DigitalLink } from './digital-link-calculation.js';
import { gs1ElementString } from './element-string-calculation.js';
import { gs1Parse } from './parse-calculation.js';

/** The identification calculations, in the order in which they are listed. */
export const gs1Calculations: readonly Calculation[] = [gs1CheckDigit, gs1Parse, gs1ElementString, gs1DigitalLink];

/** Those that need the present year for two-digit years: they have no clock, so the caller adds `asOfYear` where the request has none. */
export const calculationsAsOfYear: ReadonlySet<string> = new Set(['gs1-parse', 'gs1-element-string', 'gs1-digital-link']);

export { aiEntries, type AiEntry, type Component } from './ai-table.js';
export { checkDigitFits, checkDigitOf } from './check-digit.js';
export { fullYear, isoDate } from './dates.js';
export { defaultStem, digitalLink, readDigitalLink, type BuiltLink, type Link } from './digital-link.js';
export { bracketed, elementString, fnc1, readBracketed, readElementString, type ReadElements } from './element-string.js';
export { problemsBetween, problemsOf, type Element, type ElementProblem, type ProblemRule } from './elements.js';
export { gs1FormFields, type Gs1FormFields } from './form-fields.js';
export { resolve as resolveElement, type ResolvedElement } from './resolve.js';
export { readScan, type Scan, type ScanForm } from './scan.js';
export { gs1CheckDigit, gs1DigitalLink, gs1ElementString, gs1Parse };
