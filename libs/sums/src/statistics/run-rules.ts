import * as z from 'zod';
import { everyRule, nelsonSignals, nelsonSource, ruleList, ruleNames, rulesNamed, signal, strictness } from './nelson.js';
import { counted, reading, series, shown, spread } from './series.js';
import { defineCalculation, standardCaution } from '../calculation.js';
import { changed } from '../spellings.js';

/** Nelson's eight tests for special causes on a series with a known centre and sigma. */
export const runRules = defineCalculation({
  name: 'run-rules',
  title: 'Tests for special causes on a series of points',
  input: z.strictObject({
    values: series(1),
    centre: reading,
    sigma: spread,
    rules: ruleList.optional().meta({ description: 'numbers of the tests, 1 to 8; all eight when left out' }),
  }),
  output: z.object({
    signals: z.array(signal),
    rules: z.array(z.object({ rule: z.int(), meaning: z.string(), count: z.int() })).meta({
      description: 'each test that was applied and how many points completed it',
    }),
  }),
  example: { values: [10.1, 10.3, 9.9, 10.2, 13.4, 10.1], centre: 10, sigma: 1, rules: [1, 2, 3] },
  alsoReads: (raw) => changed(raw, 'rules', rulesNamed),
  run({ values, centre, sigma, rules = [...everyRule] }) {
    const signals = nelsonSignals(values, centre, sigma, rules);
    const counts = new Map<number, number>();
    for (const { rule } of signals) counts.set(rule, (counts.get(rule) ?? 0) + 1);
    const applied = everyRule.filter((rule) => rules.includes(rule));
    return {
      ok: true,
      value: {
        signals,
        rules: applied.map((rule) => ({ rule, meaning: ruleNames[rule], count: counts.get(rule) ?? 0 })),
        inputs: { values, centre, sigma, rules: applied },
        explanation:
          `${counted(values.length, 'point')} compared with centre ${shown(centre)} and sigma ${shown(sigma)} by ${counted(applied.length, 'test')}: ` +
          `${signals.length === 0 ? 'none gave a signal' : counted(signals.length, 'signal')}. ` +
          `Each signal is at the point that completes the pattern, counted from 0. ${strictness}`,
        source: nelsonSource,
        validRange: 'independent points, roughly normal, with a centre and sigma known from a process in control',
        cautions: [
          'A signal is a reason to look for a cause, not proof of one; the more tests are applied, the more often a process in control gives a false signal.',
          'Test 8 counts points outside 1 sigma on either side, whether or not both sides occur.',
          standardCaution,
        ],
      },
    };
  },
});
