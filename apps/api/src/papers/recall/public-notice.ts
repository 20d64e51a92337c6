import { dayText, siteDay } from '@bakehouse/kernel';
import { box, code, lines, onPaper, paragraph, small, steps, strong, table, type Content } from '../layout/index.js';
import { codeText, toBeDone, type CasePaper, type Lot } from './case-paper.js';
import { datesOf, groupsOf, harmText, numbersOf } from './notice.js';

export const publicTitle = 'FOOD RECALL: DO NOT EAT';

/** How people came by it, as they would say it; nothing where it reached nobody who eats. */
const ways: Readonly<Record<string, string>> = {
  counter: 'in our shop',
  'own-shop': 'in our shop',
  'eaten-in': 'in our shop',
  stall: 'on our stall',
  dispatch: 'in places that we deliver to',
  round: 'in places that we deliver to',
  donation: 'given away',
};

interface Sold {
  readonly name: string;
  readonly lots: readonly Lot[];
  readonly how: readonly string[];
  readonly days: readonly string[];
}

/** What is put up for everybody: which food, how it was sold, what is wrong with it and what to do. No customer is named and no amount told. */
export function publicNotice(paper: CasePaper): Content[] {
  const { recall } = paper;
  const sold = soldIn(paper);
  return [
    box([
      { text: toBeDone(paper, 'Do not eat the food listed here.'), style: 'loud' },
      // Common practice, no source.
      steps([
        'Look for the product and its code or date. If you cannot tell, do not eat it.',
        'Bring it back to where you got it, or ring us. Do not give it to anybody else, nor to animals.',
        'If somebody has eaten some and feels ill, ask a doctor and show this notice. In an emergency, ring the emergency number at once.',
      ]),
    ]),
    paragraph([{ text: `What is wrong: ${onPaper('hazard', recall.hazard)}: ${recall.hazardName}. `, bold: true }, harmText(paper)]),
    table<Sold>(
      [
        { title: 'Product', width: 100, of: (s) => strong(s.name) },
        { title: 'How it was sold', width: '*', of: (s) => lines([...s.how, daysText(s.days)]) },
        { title: 'Codes on it', width: 120, of: (s) => lines([...new Set(s.lots.map((l) => codeText(l.code)))].map(code)) },
        { title: 'Dates', width: 120, of: (s) => lines(datesOf(paper, s.lots)) },
      ],
      sold,
      'By the records none of it has reached anybody who eats it.',
    ),
    ...contactOf(paper),
    small('Made from the records of the business. Show it to your food-safety authority before you put it up: it may ask for other words.'),
  ];
}

/** The products of which some has left, each with its lots, the ways and the days. Whether it certainly or possibly holds the suspect is one to who may eat it. */
function soldIn(paper: CasePaper): Sold[] {
  const { ends, counter } = paper.recall.trace;
  const day = (at: string): string => siteDay(at, paper.clockOf(''));
  const went = [
    ...ends.map((e) => ({ lots: e.lots, way: e.channel, days: [e.at, e.until ?? e.at] })),
    ...counter.map((c) => ({ lots: c.lots, way: c.way, days: [c.from, c.until ?? c.from] })),
  ].filter((w) => w.way in ways);
  const names = [...new Set(groupsOf(paper).map((g) => g.name))];
  return names.flatMap((name): Sold[] => {
    const all = groupsOf(paper).flatMap((g) => (g.name === name ? g.lots : []));
    const lots = all.filter((l) => went.some((w) => w.lots.includes(l.id)));
    const ids = new Set(lots.map((l) => l.id));
    const of = went.filter((w) => w.lots.some((lot) => ids.has(lot)));
    if (lots.length === 0) return [];
    return [{ name, lots, how: [...new Set(of.flatMap((w) => ways[w.way] ?? []))].sort(), days: of.flatMap((w) => w.days.map(day)) }];
  });
}

/** `from 19 Nov 2026 to 24 Nov 2026`, or on the one day. */
function daysText(days: readonly string[]): string {
  const sorted = [...days].sort();
  const [first = '', last = ''] = [sorted[0], sorted.at(-1)];
  return first === last ? `on ${dayText(first)}` : `from ${dayText(first)} to ${dayText(last)}`;
}

/** Where people can ask: each site that the case reaches, with its address, and the numbers of the house. */
function contactOf(paper: CasePaper): Content[] {
  const { business, recall } = paper;
  return [
    { text: business, style: 'who', margin: [0, 8, 0, 0] },
    ...recall.sites.flatMap((s) => (s.address === null ? [] : [paragraph(`${s.siteName}, ${s.address}`)])),
    ...numbersOf(paper),
  ];
}
