import { caution } from '@bakehouse/kernel';
import { wallTime } from '../../platform/clock/index.js';
import { onPaper, type Paper } from '../layout/index.js';
import { authoritySection } from './authority-section.js';
import { balanceSection } from './balance-section.js';
import { practiceText, shortId, type CasePaper } from './case-paper.js';
import { counterSection, frozenSection, heatSection, onHandSection, scopeSection, usedAndDispatchedSection } from './house-sections.js';
import { notice, titleOf } from './notice.js';
import { decisionsSection } from './decided-section.js';
import { contactSection } from './contact-section.js';

/** The papers of a case, in the order in which they are needed: the notice, the contact list, stock on hand, uses and dispatches, balances. */
export function recallPaperOf(paper: CasePaper): Paper {
  const { recall, business, zone, printedAt } = paper;
  return {
    title: `${recall.practice ? 'PRACTICE: ' : ''}${titleOf(paper)}, ${recall.hazardName}`,
    head: {
      left: business,
      right: `Case ${shortId(recall.id)}, ${onPaper('hazard', recall.hazard)}, opened ${wallTime(recall.openedAt, zone)}`,
    },
    foot: { seal: paper.recordedUnder.line, printed: `printed ${wallTime(printedAt, zone)}` },
    caution,
    practice: recall.practice ? practiceText : null,
    landscape: false,
    printedAt: new Date(printedAt),
    body: [
      ...notice(paper),
      ...contactSection(paper),
      ...onHandSection(paper),
      ...decisionsSection(paper),
      ...counterSection(paper),
      ...authoritySection(paper),
      ...balanceSection(paper),
      ...usedAndDispatchedSection(paper),
      ...heatSection(paper),
      ...scopeSection(paper),
      ...frozenSection(paper),
    ],
  };
}
