import type { InspectedChecks, InspectedDelivery, InspectionView } from '@bakehouse/contracts';
import { celsiusText, secondsText } from '@bakehouse/kernel';
import { amountOf, code as mono, heading, lines, onPaper, strong, table, type Content, type Node } from '../layout/index.js';
import { sectionHead } from './sections.js';
import { datesText, happenedText, named, readingLines, whenColumn, type Pack } from './pack.js';

type Lot = InspectedDelivery['lots'][number];
type Line = { readonly delivery: InspectedDelivery; readonly lot: Lot; readonly first: boolean };

export function goodsSection(pack: Pack): Content[] {
  const rows = pack.view.deliveries.flatMap((delivery) => delivery.lots.map((lot, i): Line => ({ delivery, lot, first: i === 0 })));
  const when = whenColumn<InspectedDelivery>(pack);
  return [
    sectionHead('goods'),
    table<Line>(
      [
        { title: when.title, width: when.width, of: ({ delivery, first }, i) => (first ? when.of(delivery, i) : '') },
        {
          title: 'Supplier; document',
          width: 110,
          of: ({ delivery: d, first }) =>
            first
              ? lines([
                  named(d.supplier),
                  d.noteNumber === null ? 'no delivery note' : `delivery note ${d.noteNumber}`,
                  ...(d.photo ? ['photo on file'] : []),
                  ...(d.unattended ? [strong('left unattended')] : []),
                ])
              : '',
        },
        { title: 'What', width: 95, of: ({ lot }) => strong(lot.name) },
        { title: 'Lot code', width: 80, of: ({ lot }) => codeLines(pack, lot) },
        {
          title: 'How much; dates',
          width: 100,
          of: ({ lot }) =>
            lines(
              [amountOf(lot.pieces, lot.mg), ...(lot.asWritten === null ? [] : [`as written: ${lot.asWritten}`]), datesText(lot)].filter(
                (x) => x !== '',
              ),
            ),
        },
        { title: 'Temperature (limit), verdict', width: 165, of: ({ lot }) => readingLines(pack, lot.temperatures) },
        { title: 'Receipt decision', width: '*', of: ({ lot }) => decisions(pack, lot.decisions) },
      ],
      rows,
      'Nothing was received in this period.',
    ),
    ...(pack.view.otherDecisions.length === 0
      ? []
      : [
          heading('Receipt decisions on earlier deliveries'),
          table<InspectionView['otherDecisions'][number]>(
            [
              { title: 'Lot', width: 200, of: (d) => named(d.lotName) },
              { title: 'Receipt decision', width: '*', of: (d) => decisions(pack, [d]) },
            ],
            pack.view.otherDecisions,
            '',
          ),
        ]),
  ];
}

function codeLines(pack: Pack, { code, codeState, identified }: Lot): Node {
  return lines([
    code === null ? onPaper('codeState', codeState) : mono(code),
    ...(identified === null
      ? []
      : [
          `${identified.code === null ? 'identified as a known lot' : `identified as ${identified.code}`}, ${happenedText(pack, identified)}, ${identified.doneBy ?? 'name withheld'}`,
        ]),
  ]);
}

function decisions(pack: Pack, all: Lot['decisions']): Node {
  if (all.length === 0) return lines(['no decision recorded']);
  return lines(
    all.flatMap((d) => [
      d.decision === 'accepted' ? onPaper('decision', d.decision) : strong(onPaper('decision', d.decision).toUpperCase()),
      ...(d.condition === null ? [] : [`“${d.condition}”`]),
      `${happenedText(pack, d)}, ${d.recordedBy ?? 'name withheld'}`,
      ...(d.note === null ? [] : [`“${d.note}”`]),
    ]),
  );
}

export function checkSections(pack: Pack): Content[] {
  const { probes, cleanDowns } = pack.view.checks;
  return [
    sectionHead('probes'),
    table<InspectedChecks['probes'][number]>(
      [
        whenColumn(pack, 84),
        { title: 'Instrument', width: 80, of: (p) => named(p.instrument) },
        { title: 'Reference', width: 90, of: (p) => onPaper('probeWay', p.way) },
        { title: 'Reading', width: 42, right: true, of: (p) => strong(celsiusText(p.shownMilli)) },
        { title: 'Expected', width: 46, right: true, of: (p) => celsiusText(p.referenceMilli) },
        { title: 'Accuracy (±)', width: 48, right: true, of: (p) => `± ${celsiusText(p.toleranceMilli)}` },
        { title: 'Result', width: '*', of: (p) => (p.passed ? 'passed' : strong('FAILED')) },
      ],
      probes,
      'No thermometer was checked in this period.',
    ),
    sectionHead('cleanDowns'),
    table<InspectedChecks['cleanDowns'][number]>(
      [
        whenColumn(pack, 84),
        { title: 'What', width: 98, of: (c) => named(c.place) },
        { title: 'How', width: 88, of: (c) => onPaper('cleanDown', c.type) },
        { title: 'Chemical', width: 76, of: (c) => c.chemical ?? 'none recorded' },
        { title: 'Dilution', width: 40, of: (c) => c.dilution ?? '' },
        { title: 'Contact time', width: '*', of: (c) => (c.contactSeconds === null ? '' : secondsText(c.contactSeconds)) },
      ],
      cleanDowns,
      'No clean-down is recorded in this period.',
    ),
  ];
}
