import type { InspectedCorrection, InspectedDeviation, InspectionView } from '@bakehouse/contracts';
import { countText, observedText } from '@bakehouse/kernel';
import { limitText, official } from '@bakehouse/records';
import { takenBackText } from '@bakehouse/views';
import { amountOf, cell, lines, onPaper, paragraph, small, strong, table, type Content, type Node } from '../layout/index.js';
import { lyingDown, sectionHead } from './sections.js';
import { happenedText, named, readingLine, timeOf, when, whenColumn, type Pack } from './pack.js';

export function deviationSection(pack: Pack): Content[] {
  const { view } = pack;
  return [
    sectionHead('deviations', lyingDown),
    ...(view.counts.openFromBefore === 0
      ? []
      : [paragraph(`${countText(view.counts.openFromBefore, 'deviation')} from before this period still open.`)]),
    table<InspectedDeviation>(
      [
        whenColumn(pack, 84),
        {
          title: 'What',
          width: 130,
          of: (d) =>
            lines([
              strong(onPaper('deviation', d.type)),
              ...(d.summary === null ? [] : [d.summary]),
              ...valueOf(view, d),
              ...(d.reportedAtSite === null ? [] : [`reported at ${d.reportedAtSite}`]),
              ...takenBackOn(d),
              onPaper('class', d.class),
            ]),
        },
        {
          title: 'Subject',
          width: 105,
          of: (d) => lines([named(d.subjectName), onPaper('subject', d.subjectType), ...heldBy(d)]),
        },
        { title: 'Corrective action', width: 155, of: (d) => done(pack, d) },
        {
          title: 'Disposition',
          width: 110,
          of: (d) =>
            d.disposition.length === 0
              ? 'no disposition recorded'
              : lines(
                  d.disposition.flatMap((b) => [
                    strong(onPaper('disposition', b.disposition)),
                    ...(b.of === null ? [] : [b.of]),
                    b.pieces === null && b.mg === null ? 'all of it' : amountOf(b.pieces, b.mg),
                    ...b.also.map(({ code, what }) => `also about: ${onPaper('finding', code)}${what === null ? '' : `: ${what}`}`),
                    ...(b.note === null ? [] : [`“${b.note}”`]),
                    `${happenedText(pack, b)}, signed by ${b.signedBy ?? 'name withheld'}`,
                  ]),
                ),
        },
        { title: 'Closed', width: '*', of: (d) => closing(pack, d) },
      ],
      view.deviations,
      'No deviation is recorded in this period.',
    ),
  ];
}

/** What the record says now stands beside what it said: the deviation is read by somebody who cannot ask. */
function takenBackOn({ takenBack }: InspectedDeviation): Node[] {
  const text = takenBackText(takenBack);
  return text === null ? [] : [strong(text)];
}

/** What is on hold for it now stands out; that it placed something on hold when it was opened is said all the same. */
const heldBy = (d: InspectedDeviation): (Node | string)[] => (d.onHold ? [strong('ON HOLD')] : d.holds ? ['placed on hold'] : []);

function done(pack: Pack, d: InspectedDeviation): Node {
  const steps = [
    ...d.actions.flatMap((a) => [strong(onPaper('action', a.type)), ...(a.action === null ? [] : [`“${a.action}”`]), when(pack, a)]),
    ...d.readAgain.map((r) => lines([strong('Reading repeated'), readingLine(pack, r)])),
  ];
  if (steps.length > 0) return lines(steps);
  if (d.disposition.length > 0) return cell('see the disposition', { style: 'cell', italics: true });
  return d.closed?.review ? cell('see the closing note', { style: 'cell', italics: true }) : strong('NOTHING RECORDED');
}

function valueOf({ makes, loads, batches, deliveries, otherReadings }: InspectionView, { reading }: InspectedDeviation): string[] {
  if (reading === null) return [];
  const all = [
    ...[...makes, ...loads, ...batches].flatMap((x) => x.readings),
    ...deliveries.flatMap((d) => d.lots.flatMap((l) => l.temperatures)),
    ...otherReadings,
  ];
  const found = all.find((r) => r.id === reading);
  return found ? [`${observedText(found)}${found.limit === null ? '' : `; limit ${limitText(found.limit)}`}`] : [];
}

function closing(pack: Pack, { closed, onHold }: InspectedDeviation): Node {
  if (closed === null) return strong('OPEN');
  return lines([
    `${timeOf(pack, closed.at)}, ${closed.by ?? 'name withheld'}`,
    ...(closed.selfReview ? [strong('reviewed by the person who did it')] : []),
    ...(closed.review === null ? [] : [`“${closed.review}”`]),
    ...(closed.stayedOnHold === 0 ? [] : [strong(`${countText(closed.stayedOnHold, 'lot')} stayed on hold, not decided on`)]),
    ...(closed.whyOnHold === null ? [] : [`“${closed.whyOnHold}”`]),
    ...(onHold ? [strong('STILL ON HOLD: what is left is to be decided on')] : []),
  ]);
}

type Version = InspectedCorrection['versions'][number];
interface Line {
  readonly kind: string;
  readonly v: Version;
  readonly first: boolean;
}

export function correctionSection(pack: Pack): Content[] {
  const rows = pack.view.corrections.flatMap((c) => c.versions.map((v, i): Line => ({ kind: c.kind, v, first: i === 0 })));
  return [
    sectionHead('corrections'),
    small('Every version stays as recorded; the last one counts. The first version is on top, its replacements below.'),
    table<Line>(
      [
        { title: 'Record', width: 72, of: ({ kind, first }) => (first ? strong(official(`kind.${kind}`)) : '') },
        {
          title: 'Recorded',
          width: 80,
          of: ({ v }) =>
            lines([
              timeOf(pack, v.recordedAt),
              v.by ?? 'name withheld',
              ...(v.at === null || v.at.slice(0, 16) === v.recordedAt.slice(0, 16) ? [] : [`for ${timeOf(pack, v.at)}`]),
            ]),
        },
        { title: 'Version', width: 48, of: ({ v, first }) => (first ? 'first' : v.withdrawn ? strong('WITHDRAWN') : 'replaces it') },
        { title: 'Reason', width: 72, of: ({ v }) => (v.reason === null ? '' : `“${v.reason}”`) },
        {
          title: 'Content; changes',
          width: '*',
          of: ({ v, first }) => lines([...(first ? [] : v.changes.map(changeLine)), ...v.summary]),
        },
      ],
      rows,
      'There are no corrections in this period.',
    ),
    ...(pack.view.correctionsTruncated ? [small(moreCorrections)] : []),
  ];
}

const moreCorrections = 'NOT ALL CORRECTIONS ARE LISTED HERE. Choose a shorter period to see the rest.';

function changeLine({ path, before, after }: Version['changes'][number]): Node {
  const where = path.filter((step) => step !== 'content').join(', ');
  return strong(`${where}: ${before} changed to ${after}`);
}
