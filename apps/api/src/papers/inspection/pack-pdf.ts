import type { PaperSize } from '@bakehouse/contracts';
import { wallTime } from '../../platform/clock/index.js';
import { sizeOfZone, type Paper } from '../layout/index.js';
import { firstPage, periodText } from './first-page.js';
import { foodSections } from './food-sections.js';
import { checkSections, goodsSection } from './goods-sections.js';
import { heldSections } from './held-sections.js';
import { batchSection, loadSection, makeSection, otherReadingsSection } from './made-sections.js';
import type { Pack } from './pack.js';
import { recallSection } from './recall-section.js';
import { planSections, sealSection } from './plan-sections.js';
import { correctionSection, deviationSection } from './wrong-sections.js';

/** The pack in the order of an inspection: what needs attention, what is on hold, what went wrong and what was released; then the records behind it. */
export function packPaperOf(pack: Pack, size?: PaperSize): Paper {
  const { view, printedAt, printedBy } = pack;
  const [site] = view.seals;
  return {
    title: `Records for inspection, ${view.site.name}, ${periodText(pack)}`,
    head: { left: `${view.business}, ${view.site.name}`, right: `Records for inspection, ${periodText(pack)}` },
    foot: {
      seal: site?.line ?? '',
      printed: `${wallTime(printedAt, view.site.zone)}${printedBy === null ? '' : ` for ${printedBy}`}`,
      times: `site time, ${view.site.zone}`,
    },
    caution: view.caution,
    practice: null,
    size: size ?? sizeOfZone(view.site.zone),
    printedAt: new Date(printedAt),
    body: [
      ...firstPage(pack),
      ...recallSection(pack),
      ...heldSections(pack),
      ...deviationSection(pack),
      ...foodSections(pack),
      ...batchSection(pack),
      ...goodsSection(pack),
      ...planSections(pack),
      ...makeSection(pack),
      ...loadSection(pack),
      ...otherReadingsSection(pack),
      ...checkSections(pack),
      ...correctionSection(pack),
      ...sealSection(pack),
    ],
  };
}
