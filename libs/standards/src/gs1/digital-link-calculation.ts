import { defineCalculation } from '@bakehouse/sums';
import * as z from 'zod';
import { defaultStem, digitalLink, isStem } from './digital-link.js';
import { uncheckedIn } from './elements.js';
import { codeCaution, elementsRead, gs1Shape, oneOfTwo, oneOfTwoSays, refuseFor, soundElements } from './input.js';

const elements = z.array(z.object({ ai: z.string(), value: z.string() }));
const stemSays = 'an address that begins with http:// or https://, without a query, such as https://id.gs1.org';
const stem = z
  .string({ error: stemSays })
  .max(200, { error: stemSays })
  .refine(isStem, { error: stemSays })
  .optional()
  .meta({ description: 'what the link begins with; https://id.gs1.org where it is left out' });

/** Digital Link URI from elements, a scanned text or another link. Refuses elements that break a rule or that no link can hold. */
export const gs1DigitalLink = defineCalculation({
  name: 'gs1-digital-link',
  title: 'GS1 Digital Link',
  input: z.strictObject({ ...gs1Shape, stem }).refine(oneOfTwo, oneOfTwoSays),
  output: z.object({
    uri: z.string(),
    key: z.object({ ai: z.string(), value: z.string() }),
    qualifiers: elements.meta({ description: 'in the path, in the order of the standard' }),
    attributes: elements.meta({ description: 'in the query, by application identifier' }),
  }),
  example: {
    elements: [
      { ai: '3103', value: '000189' },
      { ai: '01', value: '05412345000013' },
      { ai: '3923', value: '2172' },
      { ai: '10', value: 'ABC&+123' },
    ],
  },
  alsoReads: elementsRead,
  run(request) {
    const sound = soundElements(request);
    if (!sound.ok) return sound;
    const built = digitalLink(sound.value, request.stem ?? defaultStem);
    if (!built.ok) return refuseFor(built.problem, request);
    const { key, qualifiers, attributes } = built.link;
    const unchecked = uncheckedIn(sound.value);
    const named = (list: readonly { ai: string }[]) => list.map(({ ai }) => `(${ai})`).join(', ');
    return {
      ok: true,
      value: {
        uri: built.uri,
        key,
        qualifiers: [...qualifiers],
        attributes: [...attributes],
        inputs: { ...request, stem: request.stem ?? defaultStem },
        explanation:
          `Key (${key.ai}) and its qualifiers ${named(qualifiers) || '(none)'} stand in the path in the standard’s order; ` +
          `${attributes.length === 0 ? 'there is no query' : `the query holds ${named(attributes)}`}. ` +
          'All but letters, digits and - . _ ~ is percent-encoded.',
        source: 'GS1 Digital Link standard: URI syntax; sequences of keys and qualifiers from the GS1 Barcode Syntax Dictionary',
        validRange:
          'Uncompressed links with numeric identifiers. Attributes are put in the order of their identifiers, so one set of elements gives one link.',
        cautions: [codeCaution, ...(unchecked.length === 0 ? [] : [`Not checked against their lists or sums: ${unchecked.join(', ')}.`])],
      },
    };
  },
});
