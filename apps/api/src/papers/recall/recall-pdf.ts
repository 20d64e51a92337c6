import type { PaperSize, RecallPart } from '@bakehouse/contracts';
import { caution } from '@bakehouse/kernel';
import { ProblemException } from '../../platform/http/index.js';
import { wallTime } from '../../platform/clock/index.js';
import { masthead, onPaper, type Content, type Node, type Paper } from '../layout/index.js';
import { authoritySection } from './authority-section.js';
import { balanceSection } from './balance-section.js';
import { practiceText, shortId, zoneText, type CasePaper } from './case-paper.js';
import { counterSection, frozenSection, heatSection, onHandSection, scopeSection, usedAndDispatchedSection } from './house-sections.js';
import { customerNotice } from './customer-notice.js';
import { notice, suspectNames, titleOf } from './notice.js';
import { publicNotice, publicTitle } from './public-notice.js';
import { notifiedSection } from './notified-section.js';
import { decisionsSection } from './decided-section.js';
import { contactSection } from './contact-section.js';

/** Which paper, and for a customer's own which of them. */
export interface PartOf {
  readonly part: RecallPart;
  readonly customer?: string | undefined;
}

/** The papers of a case, each beginning a page with a head of its own: the notice for customers, the contact list, the sheets for the authority and the house. */
export function recallPaperOf(paper: CasePaper, { part, customer }: PartOf, size: PaperSize): Paper {
  const { recall, business, zone, printedAt, printedBy } = paper;
  const alone = part !== 'all';
  const papers: Readonly<Record<RecallPart, () => Content[]>> = {
    notice: () => [headOf(paper, titleOf(paper)), ...notice(paper, alone)],
    contacts: () => [headOf(paper, 'Contact list', alone ? {} : { pageBreak: 'before' }), ...contactSection(paper)],
    customer: () => {
      const contact = paper.recall.trace.contacts.find((c) => c.party === customer);
      if (!contact) throw new ProblemException('not-found');
      const line = `For ${contact.name ?? 'a customer whose name is withheld'}. Reason: ${recall.hazardName}.`;
      return [headOf(paper, titleOf(paper), { line }), ...customerNotice(paper, contact)];
    },
    public: () => [headOf(paper, publicTitle, { line: `Reason: ${recall.hazardName}.` }), ...publicNotice(paper)],
    all: () => [...papers.notice(), ...papers.contacts(), ...houseSheets(paper)],
  };
  const title = part === 'contacts' ? 'Contact list' : part === 'public' ? publicTitle : titleOf(paper);
  return {
    title: `${recall.practice ? 'PRACTICE: ' : ''}${title}, ${recall.hazardName}`,
    head: {
      left: business,
      right: `Case ${shortId(recall.id)}, ${onPaper('hazard', recall.hazard)}, opened ${wallTime(recall.openedAt, zone)}`,
    },
    foot: {
      seal: paper.recordedUnder.line,
      printed: `${wallTime(printedAt, zone)}${printedBy === null ? '' : ` for ${printedBy}`}`,
      times: zoneText(paper),
    },
    caution,
    practice: recall.practice ? practiceText : null,
    size,
    printedAt: new Date(printedAt),
    body: papers[part](),
  };
}

const headOf = (paper: CasePaper, title: string, { line, ...of }: Pick<Node, 'pageBreak'> & { readonly line?: string } = {}): Node =>
  masthead(
    {
      house: paper.business,
      site: null,
      title,
      line:
        line ??
        `${paper.recall.hazardName} in ${suspectNames(paper)}. Case opened ${wallTime(paper.recall.openedAt, paper.zone)} by ${paper.openedBy ?? 'somebody whose name is withheld'}.`,
      seal: {
        at: wallTime(paper.recordedUnder.at, paper.zone),
        code: paper.recordedUnder.code,
        beside: `case ${shortId(paper.recall.id)}`,
      },
    },
    of,
  );

const houseSheets = (paper: CasePaper): Content[] => [
  headOf(paper, 'Authority and house', { pageBreak: 'before' }),
  ...authoritySection(paper),
  ...notifiedSection(paper),
  ...onHandSection(paper),
  ...decisionsSection(paper),
  ...counterSection(paper),
  ...balanceSection(paper),
  ...usedAndDispatchedSection(paper),
  ...heatSection(paper),
  ...scopeSection(paper),
  ...frozenSection(paper),
];
