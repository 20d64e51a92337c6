import { wallTime } from '../../platform/clock/index.js';
import type { Paper } from '../layout/index.js';
import { frontSection, periodText, planSections, sealSection } from './front-sections.js';
import { checkSections, goodsSection } from './goods-sections.js';
import { batchSection, loadSection, makeSection, otherReadingsSection } from './made-sections.js';
import type { Pack } from './pack.js';
import { correctionSection, deviationSection } from './wrong-sections.js';

/** The pack in the order of an inspection: the counts, the deviations, the plan, then the records. */
export function packPaperOf(pack: Pack): Paper {
  const { view, printedAt } = pack;
  const [site] = view.seals;
  return {
    title: `Records for inspection, ${view.site.name}, ${periodText(pack)}`,
    head: { left: `${view.business}, ${view.site.name}`, right: `Records for inspection, ${periodText(pack)}` },
    foot: { seal: site?.line ?? '', printed: `printed ${wallTime(printedAt, view.site.zone)}` },
    caution: view.caution,
    practice: null,
    landscape: true,
    printedAt: new Date(printedAt),
    body: [
      ...frontSection(pack),
      ...deviationSection(pack),
      ...planSections(pack),
      ...makeSection(pack),
      ...loadSection(pack),
      ...batchSection(pack),
      ...goodsSection(pack),
      ...otherReadingsSection(pack),
      ...checkSections(pack),
      ...correctionSection(pack),
      ...sealSection(pack),
    ],
  };
}
