import { countText, dayText } from '@bakehouse/kernel';
import {
  amountOf,
  box,
  cell,
  code,
  type Content,
  cutHere,
  field,
  fields,
  lines,
  type Node,
  onPaper,
  paragraph,
  small,
  steps,
  strong,
  sure,
  table,
} from '../layout/index.js';
import { codeText, howFar, timeAt, toBeDone, type CasePaper, type Lot, type Reached } from './case-paper.js';

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
const harms: Readonly<Record<CasePaper['recall']['hazard'], string>> = {
  physical: 'Hard or sharp objects can cut or choke.',
  microbiological:
    'Eating it may make people ill. Small children, pregnant women, old people and people who are already ill are at greater risk.',
  allergen: 'It may cause a severe reaction in people with this allergy.',
  chemical: 'Eating it may harm health.',
};

/** What is wrong with it, in plain words. */
export const harmText = ({ recall }: Pick<CasePaper, 'recall'>): string => harms[recall.hazard] ?? '';

export const titleOf = (paper: CasePaper): string => titles[howFar(paper.recall.trace)];

/** What a customer is sent: the hazard, the products, what to do. Its contents follow 21 CFR 7.49; nothing in it advertises, and nothing in it is about another customer. */
export function notice(paper: CasePaper, alone: boolean): Content[] {
  const { recall } = paper;
  return [
    box([
      { text: toBeDone(paper, 'STOP. Do not sell, serve, use, send out or give away the food listed here.'), style: 'loud' },
      steps([
        'Look for the products and lot codes below. If you cannot read a code, treat the food as listed.',
        'Set the food aside, mark it DO NOT USE, and store it at its proper temperature. Do not throw it away or return it until we tell you how.',
        'If you have passed any on, inform those people now and give them this notice.',
        'Report back today on the slip below or by telephone, even if you have none left.',
      ]),
    ]),
    paragraph([{ text: `${onPaper('hazard', recall.hazard)}: ${recall.hazardName}. `, bold: true }, harmText(paper)]),
    products(paper, alone),
    small([
      sure(false),
      ': by contact, or as one of several lots. Treat it in the same way. ' +
        `${extent[howFar(recall.trace)]} Withdrawal: the food is taken back before it reaches consumers. Recall: consumers who may have it at home are informed too. ` +
        'The competent authority decides which of the two it is, and its class (in the United States I, II or III). A US “market withdrawal” is something else.',
    ]),
    slip(paper),
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

/** A notice that is sent alone lists everything, however long it gets: its reader has no other list. */
function products(paper: CasePaper, alone: boolean): Node {
  const groups = groupsOf(paper);
  const most = alone ? groups.length : groupsShown;
  const shown = table(
    [
      { title: 'Product', width: 100, of: (g: Group) => strong(g.name) },
      { title: 'Lot codes', width: '*', of: (g) => codesOf(g.lots, alone) },
      { title: 'Made, baked or received; dates on it', width: 120, of: (g) => lines(datesOf(paper, g.lots)) },
      { title: 'How sure', width: 46, of: (g) => ({ text: sure(g.certain), style: 'cell' }) },
      { title: 'Size of the lots', width: 62, right: true, of: (g) => sizeOf(paper, g.lots) },
    ],
    groups.slice(0, most),
    'No product is in scope.',
  );
  return groups.length <= most
    ? shown
    : { stack: [shown, small(`And ${countText(groups.length - most, 'more product', 'more products')}: see “Lots in scope”.`)] };
}

function codesOf(lots: readonly Lot[], alone: boolean): Node {
  const codes = [...new Set(lots.map((l) => codeText(l.code)))];
  const most = alone ? codes.length : codesShown;
  const more = codes.length > most ? ` and ${codes.length - most} more: see “Lots in scope”` : '';
  return { text: [...codes.slice(0, most).flatMap((of, i) => [...(i === 0 ? [] : [', ']), code(of)]), more], style: 'cell' };
}

export function datesOf(paper: CasePaper, lots: readonly Lot[]): string[] {
  const of = (key: 'bakedOn' | 'useBy' | 'bestBefore'): string[] => lots.flatMap((l) => paper.details.get(l.id)?.[key] ?? []).sort();
  const came = lots.filter((l) => l.type === 'received' || l.type === 'placeholder').map((l) => `received ${timeAt(paper, l.site, l.at)}`);
  return [...range('baked', of('bakedOn')), ...came, ...range('use by', of('useBy')), ...range('best before', of('bestBefore'))];
}

/** From the first day to the last, of days in their order. */
function range(what: string, days: readonly string[]): string[] {
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined) return [];
  return [first === last ? `${what} ${dayText(first)}` : `${what} ${dayText(first)} to ${dayText(last)}`];
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

/** Where a customer calls back: each number of the house once. */
export function numbersOf({ recall: { sites } }: CasePaper): Content[] {
  const numbers = [...new Set(sites.flatMap((s) => s.phone ?? []))];
  return numbers.length === 0 ? [] : [{ text: numbers.join(' or '), style: 'phone', margin: [0, 3, 0, 0] }];
}

/** The slip that a customer sends back. */
function slip(paper: CasePaper): Node {
  const names = [...new Set(groupsOf(paper).map((g) => g.name))];
  const asked = ['received', 'still held', 'sold or served', 'passed on', 'thrown away'];
  return {
    unbreakable: true,
    stack: [
      cutHere(488),
      {
        text: [{ text: `Report back to ${paper.business}`, style: 'who' }, paper.openedBy === null ? '' : `, ${paper.openedBy}`],
      },
      ...numbersOf(paper),
      fields(...(numbersOf(paper).length > 0 ? [] : [field('telephone', 140)]), field('no later than', 140)),
      {
        table: {
          widths: [110, '*', '*', '*', '*', '*'],
          body: [
            ['', ...asked].map((title) => cell(title, { style: 'head' })),
            ...(names.length > slipRows ? ['all listed here'] : names).map((name) => [
              cell(name, { style: 'cell' }),
              ...asked.map(() => cell(' ')),
            ]),
          ],
        },
        layout: 'grid',
        margin: [0, 8, 0, 0],
      },
      fields(field('name of the business', 160), field('passed on to', 130)),
      fields(field('signed', 160), field('date and time', 130)),
    ],
  };
}

/** A row for each product, as long as the slip stays a slip. */
const slipRows = 6;
