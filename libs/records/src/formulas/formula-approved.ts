import { canonicalInteger, decided, differences, id, name, refuse, upcaster } from '@bakehouse/kernel';
import * as z from 'zod';
import { contentNeeds, contentProblem } from './content-problem.js';
import { loosenedFormula } from './loosened-formula.js';
import { defineKind } from '../base/kind.js';
import { formulaContent, formulaContentBefore, formulaType } from '../rows/formula-content.js';

const product = { oven: 'deck oven', celsius: 225, finishCelsius: null, minutes: 30, steamSeconds: 15 };

const sums = { totalMg: canonicalInteger, flourMg: canonicalInteger };

const about = { formula: id, number: z.int().positive(), name, type: formulaType };

/**
 * A version of a formula is approved and in force from now on, signed: complete, and fixed from then on. Its number is the next one of its formula, so two
 * people who approve at once cannot both win unseen. A correction may mend the name or the time; other content is another version. What it lets through that the
 * version before does not (a longer life, more rework) is refused until somebody says why.
 */
export const formulaApproved = defineKind({
  name: 'formula-approved',
  version: 2,
  book: 'organisation',
  type: 'decision',
  offline: false,
  signed: 'I approve this version; it is in force from now on',
  permission: 'manage.formulas',
  phrase: 'A formula was approved',
  official: 'Formula version approved',
  words: ['note'],
  payload: z.strictObject({ ...about, content: formulaContent }),
  upcast: {
    1: upcaster(z.strictObject({ ...about, content: formulaContentBefore }), ({ content, ...same }) => ({
      ...same,
      content: { ...content, rework: null },
    })),
  },
  outcome: z.strictObject({ ...sums, loosened: z.array(z.string()) }),
  /** Before version 2 nothing was compared with the version before. */
  outcomeVersion: 2,
  upcastOutcome: { 1: upcaster(z.strictObject(sums), (same) => ({ ...same, loosened: [] })) },
  examples: [
    {
      formula: '0190a6d0-7b3c-7000-8000-0000000000d0',
      number: 1,
      name: 'White dough',
      type: 'dough',
      content: {
        lines: [
          { material: '0190a6d0-7b3c-7000-8000-0000000000c1', name: 'Strong white flour', mg: 25_000_000, flour: true, madeBy: null },
          { material: '0190a6d0-7b3c-7000-8000-0000000000c2', name: 'Water', mg: 15_000_000, flour: false, madeBy: null },
        ],
        steps: [{ key: 'mix', type: 'mix', name: 'Mix', minutes: 10, maxMinutes: null, speed: null, target: null, place: null }],
        products: [
          {
            product: '0190a6d0-7b3c-7000-8000-0000000000c8',
            name: 'White tin 800 g',
            scalingMg: 910_000,
            pieces: 20,
            bakedMg: 800_000,
            lossPpm: 115_000,
            lifeDays: 3,
            dateType: 'best-before',
            ovens: [product],
            additions: [],
          },
        ],
        makes: '0190a6d0-7b3c-7000-8000-0000000000c9',
        doughCelsius: { min: '24.5', max: '27.5' },
        frictionCelsius: '14',
        minutesSlow: 4,
        minutesFast: 6,
        lifeHours: null,
        rework: {
          sources: [{ material: '0190a6d0-7b3c-7000-8000-0000000000c9', name: 'White dough' }],
          maxFlourBp: 1000,
          maxAgeHours: 24,
          maxTimes: 1,
        },
      },
    },
  ],
  needs: (p) => [{ in: 'formulaVersion', by: 'formula', value: p.formula }, ...contentNeeds(p.content)],
  decide(entry, state, { previous }) {
    const { payload: p, at } = entry;
    let loosened: readonly string[] = previous?.outcome.loosened ?? [];
    if (previous) {
      const { name: _now, ...now } = p;
      const { name: _then, ...then } = previous.payload;
      if (differences(then, now).length > 0) return refuse('approved-is-fixed', 'payload');
    } else {
      const others = state.find('formulaVersion', 'formula', p.formula);
      const next = Math.max(0, ...others.map((v) => v.number)) + 1;
      if (p.number !== next) return refuse('not-the-next-number', 'payload.number', String(next));
      if (others.some((v) => v.content.makes !== p.content.makes))
        return refuse('unacceptable-value', 'payload.content.makes', 'the material that earlier versions of this formula make');
      const problem = contentProblem(p.formula, p.type, p.content, state, at);
      if (problem) return problem;
      const before = others.find((v) => v.number === next - 1);
      loosened = before ? loosenedFormula(before.content, p.content) : [];
    }
    if (loosened.length > 0 && entry.word('note') === null)
      return refuse('limit-loosened', 'words.note', `why, and who looked at it: ${loosened.join('; ')}`);
    const sum = (lines: typeof p.content.lines): number => lines.reduce((mg, l) => mg + l.mg, 0);
    return decided({ totalMg: sum(p.content.lines), flourMg: sum(p.content.lines.filter((l) => l.flour)), loosened: [...loosened] });
  },
  rows: ({ payload: p, root, at, word }, { loosened }) => [
    { in: 'formulaVersion', id: root, row: { ...p, loosened, note: word('note'), since: at } },
  ],
});
