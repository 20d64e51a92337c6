export type CcpOutcome = 'ccp' | 'not-ccp' | 'later-step' | 'modify';
export type QuestionId = 'q1' | 'q1b' | 'q2' | 'q3' | 'q4';

export interface TreeQuestion {
  readonly id: QuestionId;
  readonly text: string;
  readonly yes: QuestionId | CcpOutcome;
  readonly no: QuestionId | CcpOutcome;
}
export interface DecisionTree {
  readonly source: string;
  readonly questions: readonly [TreeQuestion, ...TreeQuestion[]];
}

const older = [
  { id: 'q1', text: 'Do preventive control measures exist at this step?', yes: 'q2', no: 'q1b' },
  { id: 'q1b', text: 'Is control at this step necessary for safety?', yes: 'modify', no: 'not-ccp' },
  {
    id: 'q2',
    text: 'Is the step specifically designed to eliminate the hazard or reduce its likely occurrence to an acceptable level?',
    yes: 'ccp',
    no: 'q3',
  },
  {
    id: 'q3',
    text: 'Could contamination with the hazard occur in excess of acceptable levels, or increase to unacceptable levels?',
    yes: 'q4',
    no: 'not-ccp',
  },
  {
    id: 'q4',
    text: 'Will a later step eliminate the hazard or reduce its likely occurrence to an acceptable level?',
    yes: 'not-ccp',
    no: 'ccp',
  },
] as const satisfies DecisionTree['questions'];

/** The Codex trees by edition, in short words; where an edge leads to no question it leads to an outcome. Q3 and Q4 of 2022 from memory. */
export const ccpTrees = {
  2022: {
    source: 'Codex General Principles of Food Hygiene CXC 1-1969, text of 2022, example of a CCP decision tree',
    questions: [
      {
        id: 'q1',
        text: 'Can the significant hazard be controlled to an acceptable level at this step by prerequisite programmes?',
        yes: 'not-ccp',
        no: 'q2',
      },
      { id: 'q2', text: 'Do specific control measures for the hazard exist at this step?', yes: 'q3', no: 'not-ccp' },
      {
        id: 'q3',
        text: 'Will a later step prevent or eliminate the hazard, or reduce it to an acceptable level?',
        yes: 'later-step',
        no: 'q4',
      },
      {
        id: 'q4',
        text: 'Can this step specifically prevent or eliminate the hazard, or reduce it to an acceptable level?',
        yes: 'ccp',
        no: 'modify',
      },
    ],
  },
  2003: { source: 'Codex General Principles of Food Hygiene CAC/RCP 1-1969, Rev. 4 (2003), annex, diagram 2', questions: older },
  1997: { source: 'Codex General Principles of Food Hygiene CAC/RCP 1-1969, Rev. 3 (1997), annex, diagram 2', questions: older },
} as const satisfies Record<string, DecisionTree>;

export type Answers = Readonly<Partial<Record<QuestionId, boolean>>>;
export type Walk =
  { readonly outcome: CcpOutcome; readonly decidedBy: TreeQuestion; readonly asked: TreeQuestion[] } | { readonly missing: TreeQuestion };

/** Walks a tree with the answers given; stops at the first question that is needed and not answered. */
export function walkTree(tree: DecisionTree, answers: Answers): Walk {
  const asked: TreeQuestion[] = [];
  let question: TreeQuestion = tree.questions[0];
  for (;;) {
    const answer = answers[question.id];
    if (answer === undefined) return { missing: question };
    asked.push(question);
    const next = answer ? question.yes : question.no;
    const following = tree.questions.find((q) => q.id === next);
    if (following === undefined) return { outcome: toOutcome(next), decidedBy: question, asked };
    question = following;
  }
}

function toOutcome(next: QuestionId | CcpOutcome): CcpOutcome {
  switch (next) {
    case 'ccp':
    case 'not-ccp':
    case 'later-step':
      return next;
    default:
      return 'modify'; // an edge to a question the tree lacks can only ask for the step to be rethought
  }
}
