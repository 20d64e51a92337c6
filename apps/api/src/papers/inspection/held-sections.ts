import type { InspectedChecks } from '@bakehouse/contracts';
import { partText } from '@bakehouse/records';
import { amountOf, code, lines, onPaper, paragraph, strong, table, type Content, type Node } from '../layout/index.js';
import { named, timeOf, whenColumn, type Pack } from './pack.js';
import { sectionHead } from './sections.js';

/** What is on hold, what was, and what was not read. */
export function heldSections(pack: Pack): Content[] {
  const { notTaken, held, heldPlaces, onHold } = pack.view.checks;
  return [
    ...onHoldNow(onHold),
    sectionHead('held'),
    table<InspectedChecks['held'][number]>(
      [
        whenColumn(pack, 84),
        { title: 'What', width: 120, of: (h) => lines([named(h.lotName), leftText(h)]) },
        { title: 'Why', width: 120, of: (h) => h.because ?? 'not recorded' },
        { title: 'Hold lifted', width: '*', of: (h) => (h.lifted === null ? strong('ON HOLD') : ended(pack, h.lifted)) },
      ],
      held,
      `Nobody placed or lifted a hold by hand in this period. ${heldOtherwise}`,
    ),
    ...(held.length === 0 ? [] : [paragraph(heldOtherwise)]),
    ...(heldPlaces.length === 0 ? [] : [placesTable(pack, heldPlaces)]),
    sectionHead('notTaken'),
    table<InspectedChecks['notTaken'][number]>(
      [
        whenColumn(pack, 84),
        { title: 'Subject', width: 120, of: (x) => lines([named(x.subjectName), onPaper('subject', x.subjectType)]) },
        { title: 'Control point', width: 110, of: (x) => x.point },
        {
          title: 'Answer',
          width: '*',
          of: (x) => lines([strong(onPaper('notTaken', x.answer)), ...(x.note === null ? [] : [`“${x.note}”`])]),
        },
      ],
      notTaken,
      'No reading is recorded as not taken.',
    ),
  ];
}

type Ended = NonNullable<InspectedChecks['held'][number]['lifted']>;
const ended = (pack: Pack, { at, by, why }: Ended): Node =>
  lines([timeOf(pack, at), by ?? 'name withheld', ...(why === null ? [] : [`“${why}”`])]);

const leftText = ({ left }: InspectedChecks['held'][number]): string =>
  left === null ? 'what is left of it is not known' : `${amountOf(left.pieces, left.mg)} left now, by the records`;

const placesTable = (pack: Pack, places: InspectedChecks['heldPlaces']): Content =>
  table<InspectedChecks['heldPlaces'][number]>(
    [
      whenColumn(pack, 84),
      { title: 'Place', width: 90, of: (h) => h.place },
      {
        title: 'Food there',
        width: 110,
        of: (h) => `from ${timeOf(pack, h.from)}${h.to === null ? ', until it may be used again' : ` until ${timeOf(pack, h.to)}`}`,
      },
      { title: 'Why', width: 100, of: (h) => h.because ?? 'not recorded' },
      {
        title: 'May be used again',
        width: '*',
        of: (h) =>
          h.ended === null
            ? h.to === null
              ? strong('NO')
              : 'yes, from the end of that time'
            : `${timeOf(pack, h.ended.at)}, ${h.ended.by ?? 'name withheld'}`,
      },
    ],
    places,
    '',
  );

/** The list is of holds that somebody placed: what else holds is listed where it stands. */
const heldOtherwise =
  'What a recall case, a deviation or the records themselves hold is no hold by hand: it stands under “On hold now”, and a deviation under “Deviations and corrective actions”.';

/** Everything that something speaks against as of the moment of printing, from the same standing as every screen. */
const onHoldNow = (onHold: InspectedChecks['onHold']): Content[] => [
  sectionHead('onHold'),
  table<InspectedChecks['onHold'][number]>(
    [
      { title: 'What', width: 150, of: (h) => strong(h.name) },
      { title: 'Lot code', width: 90, of: (h) => (h.code === null ? 'none recorded' : code(h.code)) },
      {
        title: 'Why',
        width: '*',
        of: (h) =>
          lines(
            h.concerns.map(
              (c) =>
                `${onPaper('finding', c.type)}${c.what === null ? '' : `: ${c.what}`}${c.by === null ? '' : `, by ${c.fromName}`}${c.part === null ? '' : `; ${partText(c.part)}`}`,
            ),
          ),
      },
    ],
    onHold,
    'Nothing is on hold at this site as of the moment of printing.',
  ),
];
