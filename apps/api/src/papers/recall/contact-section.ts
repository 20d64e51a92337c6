import type { RecallView } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import { wallTime } from '../../platform/clock/index.js';
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

type Contact = RecallView['trace']['contacts'][number];

/** The contact list in calling order, with room to tick and write. */
export function contactSection(paper: CasePaper): Content[] {
  const { contacts } = paper.recall.trace;
  const certain = contacts.filter((r) => r.certain).length;
  return [
    heading('Contact list, in calling order', { pageBreak: 'before' }),
    paragraph(
      `${countText(contacts.length, 'contact')}: ${certain} certainly received some, ${contacts.length - certain} possibly. Vulnerable consumers come first. Call from the top. Write down the time, who answered and what they still have.`,
    ),
    table<Contact>(
      [
        { title: 'No.', width: 18, of: (r) => strong(String(r.order)) },
        { title: 'Tick', width: 54, of: () => ({ stack: [tick('informed'), tick('no answer'), tick('message')] }) },
        { title: 'Contact', width: 125, of: (r) => whom(paper, r) },
        { title: 'What they received', width: '*', of: (r) => had(paper, r) },
        { title: 'Time; who called', width: 58, of: () => ({ stack: [blank(54), blank(54)] }) },
        { title: 'Answer; still held', width: 80, of: () => ({ stack: [blank(76), blank(76)] }) },
      ],
      contacts,
      'By the records none of it went to a customer with a name.',
    ),
  ];
}

function whom(paper: CasePaper, r: Contact): Node {
  return lines([
    strong(r.name ?? 'name withheld'),
    r.contactName ?? 'no contact person on record',
    strong(r.phone ?? 'NO NUMBER ON RECORD'),
    ...(r.vulnerable ? [strong('vulnerable consumers')] : []),
    ...(r.unattended ? [strong('LEFT UNATTENDED: may still be unopened')] : []),
    ...r.calls.map(
      (c) =>
        `${wallTime(c.at, paper.zone)}: ${onPaper('contactAnswer', c.answer)}${c.piecesHeld === null ? '' : `, still holds ${amountOf(c.piecesHeld, null)}`}`,
    ),
  ]);
}

/** Certain and possible apart, each lot with the amount that went there. */
function had(paper: CasePaper, r: Contact): Node {
  const of = (certain: boolean): Node[] => {
    const some = r.lines.filter((l) => l.certain === certain);
    return some.length === 0
      ? []
      : [
          strong(certain ? 'Certain' : 'POSSIBLE'),
          ...some.flatMap((l) => [
            cell(`${l.name}, ${codeText(l.code)}: ${amountOf(l.pieces, l.mg)}`, { style: 'cell' }),
            cell(wallTime(l.at, paper.zone), { style: 'cell', color: '#444444' }),
          ]),
        ];
  };
  return lines([...of(true), ...of(false), ...(r.piecesUnknown ? ['some amounts not known'] : [])]);
}
