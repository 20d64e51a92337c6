import type { RecallView } from '@bakehouse/contracts';
import { countText, dayText, observedText } from '@bakehouse/kernel';
import { limitText, partText, phrase } from '@bakehouse/records';
import { comesOff, isOnHold, shelvesText, wentUnnamed, wentUnnamedText } from '@bakehouse/views';
import { wallTime } from '../../platform/clock/index.js';
import {
  amountOf,
  code,
  type Content,
  facts,
  heading,
  inShort,
  lines,
  notesOf,
  onPaper,
  verdictText,
  paragraph,
  small,
  strong,
  table,
} from '../layout/index.js';
import { measured } from './balance-section.js';
import { closedText } from './decided-section.js';
import { codeText, datesText, lotOf, lotText, named, timeAt, type CasePaper, type Lot, type PaperDeparture } from './case-paper.js';

type Trace = RecallView['trace'];
const siteOf = (paper: CasePaper, lot: string): string => lotOf(paper, lot)?.site ?? '';

export function onHandSection(paper: CasePaper): Content[] {
  const { recall } = paper;
  const off = comesOff(recall.trace, recall);
  return [
    heading('In the house'),
    ...(recall.practice ? [paragraph('This is a practice: it places nothing on hold.')] : []),
    ...closedText(paper),
    table<Trace['onHand'][number]>(
      [
        {
          title: 'What',
          width: '*',
          of: (o) => lines([strong(o.name), ...pastText(o).map(strong), ...shelvesText(o.shelves, off(o.lot)).map(strong)]),
        },
        { title: 'Lot code', width: 90, of: (o) => code(codeText(o.code)) },
        { title: 'Where', width: 88, of: (o) => lines(placesText(o)) },
        { title: 'How much', width: 60, right: true, of: (o) => measured(o.measure, o.amount) },
        { title: 'How known', width: 52, of: (o) => (o.by === 'count' ? 'counted' : o.by === null ? 'not known' : 'by the records') },
        {
          title: 'On hold',
          width: 95,
          of: (o) => heldOnPaper(recall, o),
        },
      ],
      recall.trace.onHand,
      'By the records all of it is surely gone from the house. Check the shelves as well.',
    ),
  ];
}

const pastText = ({ pastUseBy }: Trace['onHand'][number]): string[] =>
  pastUseBy === null ? [] : [`past its use-by date, ${dayText(pastUseBy)}`];

/** Each place where some of it is, with how much where there is more than one. */
function placesText({ site, inStore, shelves: { inShop, onCounter }, measure }: Trace['onHand'][number]): string[] {
  if (inStore === null || (inShop === null && onCounter.length === 0)) return [site];
  return [site, `${inStore.site}, on no counter: ${measured(measure, inStore.amount)}`];
}

/** On hold by whatever holds it, with what was decided about a part as far as this case goes; freed or done away with in the case; or, loudly, neither. */
function heldOnPaper(recall: RecallView, here: Trace['onHand'][number]): Content {
  if (recall.practice) return 'practice';
  if (isOnHold(here))
    return lines([
      'on hold',
      ...new Set(here.concerns.flatMap(({ id, part }) => (id !== recall.id || part === null ? [] : [partText(part)]))),
    ]);
  const decided = recall.decisions.findLast((d) => d.lot === here.lot);
  return decided ? phrase(`recallLotDecision.${decided.decision}`) : strong('NOT ON HOLD');
}

/** Of a stall or a round, when it set out is no end: nobody said until when it sold. */
function untilOnPaper(paper: CasePaper, { until, from, way, site }: Trace['counter'][number]): Content {
  if (until === null) return strong('not recorded as taken off');
  return way !== 'counter' && until === from ? strong('nobody said until when') : timeAt(paper, site, until);
}

export function counterSection(paper: CasePaper): Content[] {
  return [
    heading('Went to people nobody can name'),
    paragraph('Sold or given at or between these times, each piece once. Use these times in the notice to the public.'),
    ...wentUnnamed(paper.recall.trace.counter).map((w) =>
      small(`${onPaper('channel', w.way)}, ${w.certain ? 'certain' : 'possible'}: ${wentUnnamedText(w)}.`),
    ),
    table<Trace['counter'][number]>(
      [
        { title: 'What', width: '*', of: (c) => strong(c.name) },
        { title: 'Lot code', width: 75, of: (c) => code(codeText(c.code)) },
        { title: 'Where', width: 65, of: (c) => lines([c.site, onPaper('channel', c.way)]) },
        { title: 'From', width: 96, of: (c) => timeAt(paper, c.site, c.from) },
        {
          title: 'Until',
          width: 96,
          of: (c) => untilOnPaper(paper, c),
        },
        { title: 'How many', width: 50, right: true, of: (c) => lines([howMany(c), ...(c.certain ? [] : ['possible'])]) },
      ],
      paper.recall.trace.counter,
      'By the records none of it was on a counter or went to anybody whose name is not known.',
    ),
  ];
}

const howMany = ({ pieces, until }: Trace['counter'][number]): string =>
  pieces === null ? 'not known' : `${amountOf(pieces, null)}${until === null ? ' put out' : ''}`;

export function usedAndDispatchedSection(paper: CasePaper): Content[] {
  const columns = [
    { title: 'What', width: '*' as const, of: (d: PaperDeparture) => strong(d.lots.map((lot) => named(paper, lot)).join(' or ')) },
    { title: 'Channel', width: 72, of: (d: PaperDeparture) => onPaper('channel', d.channel) },
    { title: 'To', width: 84, of: (d: PaperDeparture) => lines([d.customer ?? '', ...(d.unattended ? [strong('left unattended')] : [])]) },
    {
      title: 'How much',
      width: 50,
      right: true,
      of: (d: PaperDeparture) =>
        lines([
          amountOf(d.pieces, d.mg),
          ...(d.backPieces === null && d.backMg === null ? [] : [`returned: ${amountOf(d.backPieces, d.backMg)}`]),
        ]),
    },
    { title: 'How known', width: 44, of: (d: PaperDeparture) => inShort('how', d.how) },
    { title: 'When', width: 80, of: (d: PaperDeparture) => timeAt(paper, siteOf(paper, d.lot), d.at) },
  ];
  return [
    heading('Used and dispatched: certain'),
    table(
      columns,
      paper.departures.filter((d) => d.certain),
      'No certain use or dispatch is recorded.',
    ),
    heading('Used and dispatched: possible'),
    table(
      columns,
      paper.departures.filter((d) => !d.certain),
      'No possible use or dispatch is recorded.',
    ),
  ];
}

export function scopeSection(paper: CasePaper): Content[] {
  const { trace } = paper.recall;
  const inOrder = [...trace.lots].sort((a, b) => a.steps - b.steps || (a.at < b.at ? -1 : 1));
  const notes = notesOf(inOrder.map((l) => whyIn(paper, l)));
  const columns = [
    { title: 'What', width: '*' as const, of: (l: Lot) => lines([strong(l.name), onPaper('lot', l.type)]) },
    {
      title: 'Lot code',
      width: 75,
      of: (l: Lot) =>
        lines([...(ownCode(l) === '' ? [] : [code(ownCode(l))]), datesText(paper.details.get(l.id))].filter((text) => text !== '')),
    },
    { title: 'Where', width: 54, of: (l: Lot) => l.site },
    { title: 'When', width: 80, of: (l: Lot) => timeAt(paper, l.site, l.at) },
    { title: 'How much', width: 46, right: true, of: (l: Lot) => amountOf(l.pieces, l.mg) },
    {
      title: 'In scope because',
      width: 104,
      of: (l: Lot) => lines([notes.inPlaceOf(whyIn(paper, l)), shareText(l)].filter((text) => text !== '')),
    },
  ];
  return [
    heading('Lots in scope: certain'),
    small(trace.rule),
    table(
      columns,
      inOrder.filter((l) => l.certain),
      'No lot is certain.',
    ),
    heading('Lots in scope: possible'),
    table(
      columns,
      inOrder.filter((l) => !l.certain),
      'No lot is possible only.',
    ),
    ...notes.below,
    ...(trace.alike.length === 0 ? [] : [heading('The same lot code, NOT in this case')]),
    ...trace.alike.map((l) =>
      small([lotText(l, paper), l.supplierName, `came ${timeAt(paper, l.site, l.at)}`, l.site].filter(Boolean).join(', ')),
    ),
    ...trace.hidden.map((h) =>
      small(
        `${countText(h.lots, 'more lot', 'more lots')} in scope at ${h.site || 'another site'}. The person who printed this may not see them: ask that site.`,
      ),
    ),
  ];
}

/** An intermediate made here has no code and needs none. */
const ownCode = (l: Lot): string => (l.code === null && ['made', 'run', 'old-dough', 'vessel'].includes(l.type) ? '' : codeText(l.code));

function whyIn(paper: CasePaper, lot: Lot): string {
  if (lot.by === null) return 'suspected lot';
  const type =
    lot.by.type === 'contact'
      ? 'same station, not cleaned down between'
      : lot.by.type === 'identified'
        ? 'identified as this lot'
        : lot.by.type === 'perhaps'
          ? 'lot not recorded when it was used: may have been this one'
          : onPaper('flow', lot.by.type);
  return `${type}: ${named(paper, lot.by.from)}`;
}

function shareText({ by, minPpt, maxPpt }: Lot): string {
  if (by === null || minPpt === null || maxPpt === null || maxPpt === 0) return '';
  const percent = (ppt: number): string => `${(ppt / 1e10).toPrecision(3)} %`;
  const [least, most] = [percent(minPpt), percent(maxPpt)];
  return least === most ? `share ${least}` : `share ${least} to ${most}`;
}

/** The readings at the heat step: evidence for the person who decides. They take nothing out of scope. */
export function heatSection(paper: CasePaper): Content[] {
  const { steps, note } = paper.recall.trace.heat;
  if (note === null) return [];
  const notes = notesOf(steps.map((h) => h.basis));
  return [
    heading('The heat step'),
    paragraph(note),
    table<Trace['heat']['steps'][number]>(
      [
        { title: 'Lot', width: '*', of: (h) => strong(named(paper, h.lot)) },
        {
          title: 'Value (limit)',
          width: 130,
          of: (h) => `${h.parameter}: ${observedText({ ...h, yes: null })}${h.limit === null ? '' : ` (${limitText(h.limit)})`}`,
        },
        {
          title: 'Verdict',
          width: 75,
          of: (h) =>
            lines([verdictText(h, (at) => timeAt(paper, siteOf(paper, h.lot), at)), ...(h.corrected ? ['corrected afterwards'] : [])]),
        },
        { title: 'Basis of the limit', width: 110, of: (h) => notes.inPlaceOf(h.basis) },
        { title: 'When', width: 96, of: (h) => timeAt(paper, siteOf(paper, h.lot), h.at) },
      ],
      steps,
      'No reading is recorded at the heat step.',
    ),
    ...notes.below,
  ];
}

/** The seals over the scope: anybody can check that nobody changed it afterwards. */
export function frozenSection(paper: CasePaper): Content[] {
  const { recall } = paper;
  const { added, gone } = recall.changedSince;
  return [
    heading('The frozen scope and its seals'),
    facts([
      ['Scope frozen', `${countText(recall.scopeLots, 'lot')}, ${timeAt(paper, '', recall.openedAt)}`],
      ['Hash of the scope', recall.scopeHash],
      [
        'The case is recorded in',
        `${paper.nameOfBook(paper.recordedUnder.book)}, ${paper.recordedUnder.line}; root ${paper.recordedUnder.rootHex} of ${countText(paper.recordedUnder.size, 'record')}`,
      ],
      [
        'Since then',
        added.length + gone.length === 0
          ? 'the scope has not changed'
          : `${countText(added.length, 'lot')} added (${list(paper, added)}); ${gone.length} removed`,
      ],
    ]),
    table(
      [
        { title: 'Book', width: 120, of: (s: CasePaper['recordedUnder']) => s.name },
        { title: 'Records then', width: 55, right: true, of: (s) => String(s.size) },
        { title: 'Sealed', width: 100, of: (s) => wallTime(s.at, paper.clockOf(s.name).zone) },
        { title: 'Code', width: 60, of: (s) => code(s.code) },
        { title: 'Root', width: '*', of: (s) => code(s.rootHex) },
      ],
      paper.frozenUnder,
      'No book was frozen.',
    ),
    ...paper.recordedUnder.says.map(small),
  ];
}

const list = (paper: CasePaper, lots: readonly string[]): string =>
  (lots.length > 8
    ? [...lots.slice(0, 8).map((l) => named(paper, l)), `and ${lots.length - 8} more`]
    : lots.map((l) => named(paper, l))
  ).join('; ') || 'none';
