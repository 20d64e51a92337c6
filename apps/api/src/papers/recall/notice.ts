import { countText, dayText } from '@bakehouse/kernel';
import { wallTime } from '../../platform/clock/index.js';
import {
  amountOf,
  blank,
  box,
  cautionBox,
  cell,
  type Content,
  facts,
  lines,
  type Node,
  onPaper,
  small,
  steps,
  strong,
  table,
} from '../layout/index.js';
import { codeText, datesText, howFar, shortId, sureText, timeAt, zoneText, type CasePaper, type Lot, type Reached } from './case-paper.js';

const titles: Readonly<Record<Reached, string>> = {
  consumers: 'URGENT: FOOD RECALL',
  customers: 'URGENT: FOOD WITHDRAWAL',
  house: 'URGENT: FOOD ON HOLD. BY THE RECORDS NOTHING HAS LEFT',
};
const extent: Readonly<Record<Reached, string>> = {
  consumers: 'By the records some of it has reached consumers. This is a recall.',
  customers:
    'By the records it went to customers and no further. This is a withdrawal. It becomes a recall when a customer has sold or served some.',
  house: 'By the records none of it has left the house.',
};
const harm: Readonly<Record<CasePaper['recall']['hazard'], string>> = {
  physical: 'Hard or sharp objects can cut or choke.',
  microbiological:
    'Eating it may make people ill. Small children, pregnant women, old people and people who are already ill are at greater risk.',
  allergen: 'It may cause a severe reaction in people with this allergy.',
  chemical: 'Eating it may harm health.',
};

export const titleOf = (paper: CasePaper): string => titles[howFar(paper.recall.trace)];

/** The first page: the hazard, the products, what to do. Its contents follow 21 CFR 7.49; nothing in it advertises. */
export function notice(paper: CasePaper): Content[] {
  const { recall, zone } = paper;
  return [
    { text: `${recall.practice ? 'PRACTICE. ' : ''}${titleOf(paper)}`, style: 'title' },
    { text: `${paper.business}: ${recall.hazardName} in ${suspectNames(paper)}`, style: 'subtitle' },
    box([
      { text: 'STOP. Do not sell, serve, use, send out or give away the food listed here.', style: 'loud' },
      steps([
        'Look for the products and lot codes below. If you cannot read a code, treat the food as listed.',
        'Set the food aside, mark it DO NOT USE, and store it at its proper temperature. Do not throw it away or return it until we tell you how.',
        'If you have passed any on, inform those people now and give them this notice.',
        'Report back today on the slip below or by telephone, even if you have none left.',
      ]),
    ]),
    facts([
      ['Hazard', `${onPaper('hazard', recall.hazard)}: ${recall.hazardName}. ${harm[recall.hazard]}`],
      [
        'How it was found',
        `${recall.said ?? 'not written down'}. Case opened ${wallTime(recall.openedAt, zone)} by ${paper.openedBy ?? 'somebody whose name is withheld'}; case ${shortId(recall.id)}.`,
      ],
      ['Times', `Site time: ${zoneText(paper)}`],
    ]),
    products(paper),
    small(
      `${extent[howFar(recall.trace)]} Withdrawal: the food is taken back before it reaches consumers. Recall: consumers who may have it at home are informed too. ` +
        'The competent authority decides which of the two it is, and its class (in the United States I, II or III). A US “market withdrawal” is something else.',
    ),
    slip(paper),
    cautionBox(recall.trace.caution),
  ];
}

export function suspectNames({ recall }: CasePaper): string {
  const lots = recall.trace.lots.filter((l) => recall.trace.suspects.includes(l.id));
  return lots.length === 0
    ? 'lots that the person who printed this may not see'
    : lots.map((l) => `${l.name}, lot ${codeText(l.code)}`).join('; ');
}

interface Group {
  readonly name: string;
  readonly certain: boolean;
  readonly lots: readonly Lot[];
}

/** What a customer can hold: batches by product, and the suspected lots themselves. */
export function groupsOf({ recall }: CasePaper): Group[] {
  const { lots, suspects } = recall.trace;
  const groups = new Map<string, Lot[]>();
  for (const lot of [...lots].sort((a, b) => (a.at < b.at ? -1 : 1))) {
    if (lot.type !== 'batch' && !suspects.includes(lot.id)) continue;
    const key = `${lot.type === 'batch' ? 1 : 0} ${lot.certain ? 0 : 1} ${lot.name}`;
    groups.set(key, [...(groups.get(key) ?? []), lot]);
  }
  return [...groups]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .flatMap(([, all]) => all.slice(0, 1).map(({ name, certain }) => ({ name, certain, lots: all })));
}

const codesShown = 24;
const groupsShown = 12;

function products(paper: CasePaper): Node {
  const groups = groupsOf(paper);
  const shown = table(
    [
      { title: 'Product', width: 105, of: (g: Group) => lines([strong(g.name), `${sureText(g.certain)}`]) },
      { title: 'Lot codes', width: '*', of: (g) => codesOf(g.lots) },
      { title: 'Made, baked or received; dates on it', width: 145, of: (g) => lines(datesOf(paper, g.lots)) },
      { title: 'Size of the lots', width: 75, right: true, of: (g) => sizeOf(paper, g.lots) },
    ],
    groups.slice(0, groupsShown),
    'No product is in scope.',
  );
  return groups.length <= groupsShown
    ? shown
    : { stack: [shown, small(`And ${countText(groups.length - groupsShown, 'more product', 'more products')}: see “Lots in scope”.`)] };
}

function codesOf(lots: readonly Lot[]): string {
  const codes = [...new Set(lots.map((l) => codeText(l.code)))];
  return codes.length <= codesShown
    ? codes.join(', ')
    : `${codes.slice(0, codesShown).join(', ')} and ${codes.length - codesShown} more: see “Lots in scope”`;
}

function datesOf(paper: CasePaper, lots: readonly Lot[]): string[] {
  const baked = [...new Set(lots.flatMap((l) => paper.details.get(l.id)?.bakedOn ?? []))].sort();
  const came = lots.filter((l) => l.type === 'received' || l.type === 'placeholder').map((l) => `received ${timeAt(paper, l.site, l.at)}`);
  const [first, last] = [baked[0], baked.at(-1)];
  const when =
    first === undefined || last === undefined
      ? []
      : [first === last ? `baked ${dayText(first)}` : `baked ${dayText(first)} to ${dayText(last)}`];
  const dates = [...new Set(lots.map((l) => datesText(paper.details.get(l.id))).filter((text) => text !== ''))];
  return [...when, ...came, ...(dates.length > 3 ? ['several dates: see “Lots in scope”'] : dates)];
}

function sizeOf(paper: CasePaper, lots: readonly Lot[]): string {
  const written = lots.length === 1 ? lots.flatMap((l) => paper.details.get(l.id)?.asWritten ?? []) : [];
  const inPieces = lots.filter((l) => l.pieces !== null);
  const [pieces, mg] = [
    inPieces.reduce((n, l) => n + (l.pieces ?? 0), 0),
    lots.reduce((n, l) => n + (l.pieces === null ? (l.mg ?? 0) : 0), 0),
  ];
  const unknown = lots.some((l) => l.pieces === null && l.mg === null);
  const sizes = [
    ...(inPieces.length > 0 ? [amountOf(pieces, null)] : []),
    ...(mg > 0 ? [amountOf(null, mg)] : []),
    ...(unknown ? ['partly not known'] : []),
  ];
  return [sizes.join(' and '), ...written.map((w) => `(as written: ${w})`)].join(' ');
}

/** The slip that a customer sends back. */
function slip(paper: CasePaper): Node {
  const field = (name: string, width: number): Node => ({
    columns: [
      { text: name, style: 'cell', width: 'auto' },
      { ...blank(width), width: 'auto' },
    ],
    columnGap: 4,
    width: 'auto',
  });
  return {
    unbreakable: true,
    margin: [0, 2, 0, 6],
    table: {
      widths: ['*'],
      body: [
        [
          {
            stack: [
              cell(`Report back to ${paper.business}${paper.openedBy === null ? '' : `, ${paper.openedBy}`}`, { style: 'name' }),
              { columns: [field('telephone', 120), field('no later than', 110)], columnGap: 12, margin: [0, 3, 0, 0] },
              {
                columns: [field('still held', 55), field('sold or served', 55), field('passed on', 55), field('thrown away', 55)],
                columnGap: 10,
                margin: [0, 3, 0, 0],
              },
              {
                columns: [field('name of the business', 130), field('signed', 90), field('date and time', 70)],
                columnGap: 10,
                margin: [0, 3, 0, 4],
              },
            ],
          },
        ],
      ],
    },
    layout: 'boxed',
  };
}
