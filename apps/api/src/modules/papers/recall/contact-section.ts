import type { RecallView } from '@bakehouse/contracts';
import { wallTime } from '../../../platform/clock/index.js';
import {
  amountOf,
  blank,
  cell,
  type Content,
  heading,
  lines,
  type Node,
  onPaper,
  paragraph,
  strong,
  table,
  tick,
} from '../layout/index.js';
import { codeText, type CasePaper } from './case-paper.js';

type Ring = RecallView['trace']['ring'][number];

/** Whom to ring, in the order to ring, with room to tick and write. */
export function contactSection(paper: CasePaper): Content[] {
  const { ring } = paper.recall.trace;
  const surely = ring.filter((r) => r.certain).length;
  return [
    heading('Telephone list, in the order to ring', { pageBreak: 'before' }),
    paragraph(
      `${ring.length} to ring: ${surely} surely had some, ${ring.length - surely} may have had some. On top: those where people eat who are more easily hurt. Ring from the top, write down the time, who answered and what they still have.`,
    ),
    table<Ring>(
      [
        { title: 'No.', width: 18, of: (r) => strong(String(r.order)) },
        { title: 'Tick', width: 54, of: () => ({ stack: [tick('told'), tick('no answer'), tick('message')] }) },
        { title: 'Whom', width: 125, of: (r) => whom(paper, r) },
        { title: 'What they had', width: '*', of: (r) => had(paper, r) },
        { title: 'Time; who rang', width: 58, of: () => ({ stack: [blank(54), blank(54)] }) },
        { title: 'Answer; still there', width: 80, of: () => ({ stack: [blank(76), blank(76)] }) },
      ],
      ring,
      'By the records none of it went to anybody who can be rung.',
    ),
  ];
}

function whom(paper: CasePaper, r: Ring): Node {
  return lines([
    strong(r.name ?? 'name withheld'),
    r.contactName ?? 'no name to ask for',
    strong(r.phone ?? 'NO NUMBER ON RECORD'),
    ...(r.vulnerable ? [strong('people there are more easily hurt')] : []),
    ...(r.unattended ? [strong('LEFT UNATTENDED: may stand unopened, or be eaten')] : []),
    ...r.calls.map(
      (c) =>
        `${wallTime(c.at, paper.zone)}: ${onPaper('contactAnswer', c.answer)}${c.piecesHeld === null ? '' : `, still has ${amountOf(c.piecesHeld, null)}`}`,
    ),
  ]);
}

/** Certain apart from possible, each lot with what of it went there. */
function had(paper: CasePaper, r: Ring): Node {
  const of = (certain: boolean): Node[] => {
    const some = r.lines.filter((l) => l.certain === certain);
    return some.length === 0
      ? []
      : [
          strong(certain ? 'Surely' : 'POSSIBLY'),
          ...some.flatMap((l) => [
            cell(`${l.name}, ${codeText(l.code)}: ${amountOf(l.pieces, l.mg)}`, { style: 'cell' }),
            cell(wallTime(l.at, paper.zone), { style: 'cell', color: '#444444' }),
          ]),
        ];
  };
  return lines([...of(true), ...of(false), ...(r.piecesUnknown ? ['not every amount is known'] : [])]);
}
