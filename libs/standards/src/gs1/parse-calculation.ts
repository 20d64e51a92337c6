import { defineCalculation, standardCaution } from '@bakehouse/sums';
import * as z from 'zod';
import { aiEntries } from './ai-table.js';
import { uncheckedIn, type Element, type ElementProblem } from './elements.js';
import { gs1FormFields } from './form-fields.js';
import { codeCaution, dictionarySource, elementsRead, gs1Shape, oneOfTwo, oneOfTwoSays, understand, type Gs1Request } from './input.js';
import { resolve } from './resolve.js';

const problem = z.object({
  rule: z.enum([
    'form',
    'unknown-ai',
    'length',
    'charset',
    'check-digit',
    'date',
    'time',
    'company-prefix',
    'content',
    'excluded',
    'required',
    'repeated',
    'link',
  ]),
  ai: z.string().nullable(),
  index: z.int().nullable().meta({ description: 'place of the element in the list, from 0; null where the problem is of the whole' }),
  says: z.string(),
});

const resolved = z.object({
  ai: z.string(),
  title: z.string().meta({ description: 'data title of the GS1 dictionary' }),
  value: z.string(),
  date: z.string().nullable().meta({ description: 'ISO date; day 00 is the last day of the month' }),
  time: z.string().nullable(),
  decimal: z.string().nullable().meta({ description: 'the figure with its decimal point, exact' }),
  unit: z.string().nullable(),
});

const fields = z
  .object({
    gtin: z.string().nullable(),
    lot: z.string().nullable(),
    bestBefore: z.string().nullable(),
    useBy: z.string().nullable(),
    packedOn: z.string().nullable(),
    productionDate: z.string().nullable(),
    netMassGrams: z.number().nullable(),
    count: z.number().nullable(),
  })
  .meta({ description: 'what the form for goods in can take; null where the code does not say, or says it wrongly' });

const nothing = { date: null, time: null, decimal: null, unit: null };
const titleOf = ({ ai }: Element): string => aiEntries.get(ai)?.title ?? '';
const unresolved = 'No year was given, so two-figure years are not resolved to dates.';

function explain(form: string, elements: readonly { title: string; value: string }[], problems: readonly ElementProblem[]): string {
  const read = `Read as ${form.replace('-', ' ')}: ${elements.map(({ title, value }) => `${title} ${value}`).join(', ') || 'nothing'}.`;
  return problems.length === 0
    ? `${read} It keeps every rule that is checked.`
    : `${read} Not sound: ${problems.map(({ says }) => says).join('; ')}.`;
}

function cautionsFor(request: Gs1Request, unchecked: readonly string[], dated: boolean): string[] {
  return [
    codeCaution,
    standardCaution,
    ...(dated && request.asOfYear === undefined ? [unresolved] : []),
    ...(unchecked.length === 0 ? [] : [`Not checked against their lists or sums: ${unchecked.join(', ')}.`]),
  ];
}

/** Reads a scanned code, checks it against the GS1 rules, resolves dates and measures. Wrong data is an answer with errors, not a refusal. */
export const gs1Parse = defineCalculation({
  name: 'gs1-parse',
  title: 'Read a GS1 code',
  input: z.strictObject(gs1Shape).refine(oneOfTwo, oneOfTwoSays),
  output: z.object({
    form: z.enum(['brackets', 'element-string', 'digital-link', 'plain-key', 'elements']),
    valid: z.boolean(),
    elements: z.array(resolved),
    errors: z.array(problem).meta({ description: 'each broken rule, by its name' }),
    fields,
  }),
  example: { text: '(01)05412345000013(15)260300(3103)000189(10)ABC&+123', asOfYear: 2026 },
  alsoReads: elementsRead,
  run(request) {
    const { form, elements: read, problems } = understand(request);
    const broken = new Set(problems.filter(({ rule }) => rule !== 'required' && rule !== 'excluded').map(({ index }) => index));
    const elements = read.map((element, i) =>
      broken.has(i) ? { ...element, title: titleOf(element), ...nothing } : resolve(element, request.asOfYear),
    );
    const sound = elements.filter(({ ai }) => !elements.some((other, i) => other.ai === ai && broken.has(i))); // two lots given: neither is taken
    const dated = read.some(({ ai }) => aiEntries.get(ai)?.components.some(({ rules }) => rules.some((name) => name.startsWith('yymmd'))));
    return {
      ok: true,
      value: {
        form,
        valid: problems.length === 0,
        elements,
        errors: [...problems],
        fields: gs1FormFields(sound),
        inputs: { ...request },
        explanation: explain(form, elements, problems),
        source: dictionarySource,
        validRange:
          request.asOfYear === undefined
            ? null
            : `Dates from ${request.asOfYear - 49} to ${request.asOfYear + 50}: two figures cannot say more.`,
        cautions: cautionsFor(request, uncheckedIn(read), dated),
      },
    };
  },
});
