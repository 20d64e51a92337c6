import { refuse } from '@bakehouse/kernel';
import * as z from 'zod';
import { alsoReads } from './ccp-answers.js';
import { ccpTrees, walkTree, type Answers, type CcpOutcome } from './ccp-trees.js';
import { only } from './fields.js';
import { defineCalculation, standardCaution } from '../calculation.js';

const editions = { '2022': ccpTrees[2022], '2003': ccpTrees[2003], '1997': ccpTrees[1997] } as const;
const editionNames = '2022, 2003 or 1997, the edition of the tree';
const edition = z.union([z.enum(['2022', '2003', '1997']), z.literal([2022, 2003, 1997])], { error: editionNames });

const yesOrNo = z.union([z.boolean(), z.enum(['yes', 'no'])], { error: 'yes or no (or true or false)' });
const answer = yesOrNo.optional();
const answers = only({ q1: answer, q1b: answer, q2: answer, q3: answer, q4: answer });
type GivenAnswers = z.output<typeof answers>;

const meaning = {
  ccp: 'this step is a critical control point',
  'not-ccp': 'this step is not a critical control point for this hazard',
  'later-step': 'the later step should be the critical control point',
  modify: 'the step, the process or the product must be changed so that the hazard is controlled',
} as const satisfies Record<CcpOutcome, string>;

export const ccpDecision = defineCalculation({
  name: 'ccp-decision',
  title: 'Is a step a critical control point?',
  input: only({ edition, answers }),
  output: z.object({
    outcome: z.enum(['ccp', 'not-ccp', 'later-step', 'modify']),
    decidedBy: z.string().meta({ description: 'the question that decided: Q1, Q1b, Q2, Q3 or Q4' }),
    question: z.string().meta({ description: 'that question in short words' }),
    asked: z.array(z.string()),
  }),
  example: { edition: '2022', answers: { q1: false, q2: true, q3: false, q4: true } },
  alsoReads,
  run(given) {
    const name = z.enum(['2022', '2003', '1997']).parse(String(given.edition));
    const tree = editions[name];
    const plain = plainAnswers(given.answers);
    if (plain.q1b !== undefined && name === '2022')
      return refuse('unacceptable-value', 'answers.q1b', 'no answer: the 2022 tree does not ask this');
    const walk = walkTree(tree, plain);
    if ('missing' in walk) return refuse('unacceptable-value', `answers.${walk.missing.id}`, `yes or no to: ${walk.missing.text}`);
    const { outcome, decidedBy, asked } = walk;
    const said = plain[decidedBy.id] === true ? 'yes' : 'no';
    return {
      ok: true,
      value: {
        outcome,
        decidedBy: label(decidedBy.id),
        question: decidedBy.text,
        asked: asked.map((q) => label(q.id)),
        inputs: { edition: name, answers: plain },
        explanation: `${label(decidedBy.id)} decided. ${decidedBy.text} ${said === 'yes' ? 'Yes' : 'No'}: ${meaning[outcome]}.`,
        source: tree.source,
        validRange: null,
        cautions: [
          standardCaution,
          'A tree is an aid: keep its edition with the answers, and the reasons for each answer.',
          ...(name === '2022' && decidedBy.id === 'q2' ? [noMeasure] : []),
          ...(outcome === 'modify' ? ['After the change, analyse the hazard again and ask the questions anew.'] : []),
        ],
      },
    };
  },
});

const noMeasure =
  'A significant hazard without a control measure remains: change the step, process or product, and analyse the hazard again.';
const label = (id: string): string => `Q${id.slice(1)}`;

function plainAnswers(given: GivenAnswers): Answers {
  const plain: { q1?: boolean; q1b?: boolean; q2?: boolean; q3?: boolean; q4?: boolean } = {};
  for (const id of ['q1', 'q1b', 'q2', 'q3', 'q4'] as const) {
    const said = given[id];
    if (said !== undefined) plain[id] = said === true || said === 'yes';
  }
  return plain;
}
