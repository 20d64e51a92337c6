import { refuse, type Outcome } from '@bakehouse/kernel';
import { isFields, type Fields } from '@bakehouse/sums';
import * as z from 'zod';
import { problemsBetween, problemsOf, type Element, type ElementProblem } from './elements.js';
import { readScan, type ScanForm } from './scan.js';

const aiSays = { error: 'an application identifier: two to four digits' };
const valueSays = { error: 'the data of the element, 1 to 90 characters' };
const element = z.strictObject({
  ai: z
    .string(aiSays)
    .regex(/^\d{2,4}$/, aiSays)
    .meta({ description: 'application identifier, without brackets' }),
  value: z.string(valueSays).min(1, valueSays).max(90, valueSays),
});

/** Fields that all readers of GS1 data share. */
export const gs1Shape = {
  text: z
    .string({ error: 'text' })
    .min(1, { error: 'not empty' })
    .max(2000, { error: 'at most 2000 characters' })
    .optional()
    .meta({ description: 'as scanned, FNC1 as ASCII 29; or with the identifiers in brackets, "(" in data as "\\("; or a Digital Link' }),
  elements: z
    .array(element, { error: 'a list of {ai, value}' })
    .min(1, { error: 'at least one element' })
    .max(60, { error: 'at most 60 elements' })
    .optional(),
  asOfYear: z
    .int({ error: 'a year in four figures' })
    .min(1950, { error: 'a year from 1950' })
    .max(9900, { error: 'a year up to 9900' })
    .optional()
    .meta({
      description: 'year from which two-figure years are seen; the service fills in the current one. Without it they stay unresolved',
    }),
  codesBeside: z
    .boolean({ error: 'true or false' })
    .optional()
    .meta({ description: 'other codes stand on the same item: what must stand beside an element may be in one of them' }),
};

/** One element as [ai, value], with its data under `data`, or with its identifier in brackets. */
function elementRead(one: unknown): unknown {
  if (Array.isArray(one) && one.length === 2) return elementRead({ ai: one[0], value: one[1] });
  if (!isFields(one)) return one;
  const { data, ...rest } = one;
  const named = data === undefined || 'value' in one ? one : { ...rest, value: data };
  const bracketed = typeof named['ai'] === 'string' ? /^\((\d{2,4})\)$/.exec(named['ai']) : null;
  return bracketed === null ? named : { ...named, ai: bracketed[1] };
}

/** Elements written in other ways: as pairs, or as one object of data by identifier. */
export function elementsRead(raw: Fields): Fields {
  const { elements } = raw;
  if (isFields(elements)) return { ...raw, elements: Object.entries(elements).slice(0, 100).map(elementRead) };
  return Array.isArray(elements) && elements.length <= 100 ? { ...raw, elements: elements.map(elementRead) } : raw;
}

/** For `refine`: exactly one of text and elements is given. */
export const oneOfTwo = ({ text, elements }: Gs1Request): boolean => (text === undefined) !== (elements === undefined);
export const oneOfTwoSays = { error: 'either text or elements, one of the two', path: ['text'] };

export interface Gs1Request {
  readonly text?: string | undefined;
  readonly elements?: readonly Element[] | undefined;
  readonly asOfYear?: number | undefined;
  readonly codesBeside?: boolean | undefined;
}
export interface Understood {
  readonly form: ScanForm | 'elements';
  readonly elements: readonly Element[];
  readonly problems: readonly ElementProblem[];
}

/** Reads the request and checks it against every rule. */
export function understand({ text, elements: given, asOfYear, codesBeside }: Gs1Request): Understood {
  const read = text === undefined ? { form: 'elements' as const, elements: given ?? [], problems: [] } : readScan(text);
  const own = read.elements.flatMap((one, i) => problemsOf(one, i, asOfYear));
  const between = problemsBetween(read.elements, { codesBeside: codesBeside ?? false });
  return { form: read.form, elements: read.elements, problems: [...read.problems, ...own, ...between] };
}

/** The elements when nothing is wrong with them; otherwise a refusal that names the field of the first problem. */
export function soundElements(request: Gs1Request): Outcome<readonly Element[]> {
  const {
    elements,
    problems: [first],
  } = understand(request);
  return first === undefined ? { ok: true, value: elements } : refuseFor(first, request);
}

export function refuseFor({ index, says }: ElementProblem, request: Gs1Request) {
  const field = request.elements === undefined ? 'text' : index === null ? 'elements' : `elements.${index}.value`;
  return refuse('unacceptable-value', field, `elements that keep the GS1 rules; here ${says}`);
}

export const dictionarySource =
  'GS1 General Specifications (element strings, check digit, century of dates) and the GS1 Barcode Syntax Dictionary';
export const codeCaution = 'A well-formed code says nothing of the goods themselves: compare it with the label and the delivery.';
