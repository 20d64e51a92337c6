import { defineCalculation } from '@bakehouse/sums';
import * as z from 'zod';
import { aiEntries } from './ai-table.js';
import { uncheckedIn } from './elements.js';
import { bracketed, elementString, fnc1 } from './element-string.js';
import { codeCaution, dictionarySource, elementsRead, gs1Shape, oneOfTwo, oneOfTwoSays, soundElements } from './input.js';

/** Element string for a barcode from elements, FNC1 only where it is needed. Refuses elements that break a rule. */
export const gs1ElementString = defineCalculation({
  name: 'gs1-element-string',
  title: 'GS1 element string',
  input: z.strictObject(gs1Shape).refine(oneOfTwo, oneOfTwoSays),
  output: z.object({
    elementString: z.string().meta({ description: 'as a scanner sends it: FNC1 as ASCII 29 between elements that need it, none in front' }),
    bracketed: z.string().meta({ description: 'as people read it below the bars; "(" in data as "\\("' }),
    separators: z.int().meta({ description: 'how many FNC1 stand between elements' }),
  }),
  example: {
    elements: [
      { ai: '01', value: '05412345000013' },
      { ai: '10', value: 'ABC&+123' },
      { ai: '3103', value: '000189' },
    ],
  },
  alsoReads: elementsRead,
  run(request) {
    const sound = soundElements(request);
    if (!sound.ok) return sound;
    const text = elementString(sound.value);
    const open = sound.value
      .slice(0, -1)
      .filter(({ ai }) => aiEntries.get(ai)?.predefined !== true)
      .map(({ ai }) => `(${ai})`);
    const unchecked = uncheckedIn(sound.value);
    return {
      ok: true,
      value: {
        elementString: text,
        bracketed: bracketed(sound.value),
        separators: text.split(fnc1).length - 1,
        inputs: { ...request },
        explanation:
          open.length === 0
            ? 'Every element but the last has a predefined length, so no FNC1 stands between them.'
            : `FNC1 stands after ${open.join(', ')}, whose length is not predefined; it is not needed after the last element.`,
        source: dictionarySource,
        validRange: null,
        cautions: [codeCaution, ...(unchecked.length === 0 ? [] : [`Not checked against their lists or sums: ${unchecked.join(', ')}.`])],
      },
    };
  },
});
