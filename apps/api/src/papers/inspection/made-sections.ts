import type { InspectedBatch, InspectedLoad, InspectedMake, InspectedReading } from '@bakehouse/contracts';
import { dayText, observedText, quantityText } from '@bakehouse/kernel';
import { limitText } from '@bakehouse/records';
import { cell, code, lines, measuredText, onPaper, strong, table, verdictText, type Content } from '../layout/index.js';
import { sectionHead, standingUp } from './sections.js';
import { datesText, happenedText, named, productsText, readingLines, timeOf, whenColumn, type Pack } from './pack.js';

export function makeSection(pack: Pack): Content[] {
  return [
    sectionHead('made', standingUp),
    table<InspectedMake>(
      [
        whenColumn(pack, 84),
        {
          title: 'What',
          width: 92,
          of: (m) => lines([strong(m.name), onPaper('formula', m.type), ...(m.station === null ? [] : [m.station])]),
        },
        { title: 'Divided into; stages', width: 128, of: (m) => lines([productsText(m.products) || 'not divided', ...stages(pack, m)]) },
        { title: 'Readings: value (limit), verdict', width: '*', of: (m) => readingLines(pack, m.readings) },
      ],
      pack.view.makes,
      'Nothing was made in this period.',
    ),
  ];
}

export function loadSection(pack: Pack): Content[] {
  return [
    sectionHead('loads'),
    table<InspectedLoad>(
      [
        whenColumn(pack, 84),
        { title: 'What', width: 92, of: (l) => cell(productsText(l.products), { style: ['cell', 'strong'] }) },
        {
          title: 'Oven, setting',
          width: 128,
          of: (l) =>
            lines([
              [l.oven, l.deck].filter((x) => x !== null).join(', ') || 'not known',
              settings(l),
              ...l.steps.map(
                (s) => `${onPaper('loadStep', s.step)}${s.minutes === null ? '' : ` for ${s.minutes} min`}: ${happenedText(pack, s)}`,
              ),
            ]),
        },
        { title: 'Readings: value (limit), verdict', width: '*', of: (l) => readingLines(pack, l.readings) },
      ],
      pack.view.loads,
      'Nothing was baked in this period.',
    ),
  ];
}

/** Products that passed a stage together share one line. */
const stages = (pack: Pack, m: InspectedMake): string[] => [
  ...new Set(
    m.stages.map(
      (s) =>
        `${onPaper('stage', s.step)}${s.way === 'once' ? '' : ` ${s.way}`}${s.place === null ? '' : `, ${s.place}`}: ${happenedText(pack, s)}`,
    ),
  ),
];

const settings = ({ celsius, minutes }: InspectedLoad): string =>
  [...(celsius === null ? [] : [`set to ${quantityText(String(celsius), 'degC')}`]), ...(minutes === null ? [] : [`${minutes} min`])].join(
    ', ',
  ) || 'setting not recorded';

export function otherReadingsSection(pack: Pack): Content[] {
  return [
    sectionHead('otherReadings'),
    table<InspectedReading>(
      [
        whenColumn(pack, 84),
        { title: 'Subject', width: 92, of: (r) => lines([named(r.subjectName), onPaper('subject', r.subjectType)]) },
        {
          title: 'Measured',
          width: 80,
          of: (r) => `${measuredText(r.parameter, r.measured)}${r.instrument === null ? '' : `, ${r.instrument}`}`,
        },
        { title: 'Value', width: 50, of: (r) => strong(observedText(r)) },
        { title: 'Limit', width: 66, of: (r) => (r.limit === null ? 'none' : limitText(r.limit)) },
        {
          title: 'Verdict',
          width: '*',
          of: (r) =>
            lines([
              verdictText(r, (at) => timeOf(pack, at)),
              ...(r.corrected ? ['corrected: see Corrections'] : []),
              ...(r.note === null ? [] : [`“${r.note}”`]),
            ]),
        },
      ],
      pack.view.otherReadings,
      'No other readings: see what was made, baked, packed or received.',
    ),
  ];
}

export function batchSection(pack: Pack): Content[] {
  return [
    sectionHead('batches'),
    table<InspectedBatch>(
      [
        whenColumn(pack),
        { title: 'Product', width: 120, of: (b) => strong(b.name) },
        { title: 'Lot code', width: 85, of: (b) => code(b.code) },
        {
          title: 'Baked; dates on it',
          width: 120,
          of: (b) => lines([`baked ${dayText(b.bakedOn)}`, datesText(b)].filter((x) => x !== '')),
        },
        { title: 'Good; rejected', width: 55, right: true, of: (b) => `${b.pieces}; ${b.rejects}` },
        { title: 'Stands now', width: 55, of: (b) => standsNow(b) },
        { title: 'Release', width: '*', of: (b) => release(pack, b) },
      ],
      pack.view.batches,
      'No batch was counted out in this period.',
    ),
  ];
}

/** As of when the pack was made: a batch that was released may be on hold since. */
const standsNow = ({ standing }: InspectedBatch): Content =>
  standing === null
    ? 'not known'
    : standing === 'on-hold'
      ? strong(onPaper('standing', standing).toUpperCase())
      : onPaper('standing', standing);

function release(pack: Pack, { release: r, readings }: InspectedBatch): Content {
  const read = readings.length === 0 ? [] : [readingLines(pack, readings)];
  if (r === null) return lines([strong('NOT RELEASED'), ...read]);
  return lines([
    r.way === 'by-exception' ? strong(onPaper('release', r.way).toUpperCase()) : onPaper('release', r.way),
    `${timeOf(pack, r.at)}, ${r.by ?? 'name withheld'}`,
    ...(r.meaning === null ? [] : [`“${r.meaning}”`]),
    ...r.inSpiteOf.map((f) => `despite: ${onPaper('finding', f.code)}${f.what === null ? '' : `, ${f.what}`}`),
    ...read,
  ]);
}
