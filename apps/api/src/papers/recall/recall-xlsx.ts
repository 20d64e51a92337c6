import { countText, wallFigures } from '@bakehouse/kernel';
import { isOnHold } from '@bakehouse/views';
import writeExcelFile from 'write-excel-file/node';
import { onPaper, sheet, type Sheet, type SheetColumn } from '../layout/index.js';
import { lotText, shortId, zoneText, type CasePaper, type Lot, type PaperDeparture } from './case-paper.js';
import type { FlowRow } from './recall-paper.query.js';

type Contact = CasePaper['recall']['trace']['contacts'][number];
type Unnamed = CasePaper['recall']['trace']['counter'][number];
type Balance = CasePaper['recall']['trace']['doesNotAddUp'][number];

/** The case as sheets that can be sorted: one row of heads, real numbers, real dates in site time. */
export function recallXlsx(paper: CasePaper): Promise<Buffer> {
  const practice = paper.recall.practice;
  const sheets = [about(paper), contactList(paper), lots(paper), whereItWent(paper), unnamed(paper), balances(paper), flows(paper)];
  return writeExcelFile(sheets.map((s) => ({ ...s, sheet: practice ? `PRACTICE ${s.sheet}` : s.sheet }))).toBuffer();
}

/** Pieces where it is counted, else grams: a figure and its unit in columns of their own. */
const quantity = (pieces: number | null, mg: number | null): number | null => pieces ?? (mg === null ? null : mg / 1000);
const unit = (pieces: number | null, mg: number | null): string | null => (pieces !== null ? 'piece' : mg === null ? null : 'g');
const sure = (certain: boolean): string => (certain ? 'certain' : 'possible');
const yes = (is: boolean): string => (is ? 'yes' : 'no');

/** A time as the site's clock shows it. */
const when = <T>(title: string, of: (row: T) => readonly [at: string | null, zone: string]): SheetColumn<T> => ({
  title,
  width: 18,
  of: (row) => {
    const [at, zone] = of(row);
    return at === null ? null : { time: wallFigures(at, zone) };
  },
});

function contactList({ recall, zone }: CasePaper): Sheet {
  return sheet<Contact>(
    'Contact list',
    [
      { title: 'Calling order', width: 10, of: (r) => r.order },
      { title: 'Name', width: 26, of: (r) => r.name },
      { title: 'Contact person', width: 22, of: (r) => r.contactName },
      { title: 'Telephone', width: 18, of: (r) => r.phone },
      { title: 'Certain or possible', width: 12, of: (r) => sure(r.certain) },
      { title: 'Vulnerable consumers', width: 14, of: (r) => yes(r.vulnerable) },
      { title: 'Left unattended', width: 12, of: (r) => yes(r.unattended) },
      { title: 'Pieces', width: 10, of: (r) => r.pieces },
      { title: 'Some amounts not known', width: 12, of: (r) => yes(r.piecesUnknown) },
      { title: 'Lot codes', width: 40, of: (r) => [...new Set(r.lines.map((l) => l.code ?? 'no code'))].join(', ') },
      when<Contact>('Last delivery', (r) => [r.lastAt, zone]),
      { title: 'Informed', width: 8, of: (r) => yes(r.reached) },
      {
        title: 'Last answer',
        width: 20,
        of: (r) => {
          const last = r.calls.at(-1);
          return last ? onPaper('contactAnswer', last.answer) : null;
        },
      },
      when<Contact>('Last call', (r) => [r.calls.at(-1)?.at ?? null, zone]),
      { title: 'Pieces still held', width: 10, of: (r) => r.calls.findLast((c) => c.piecesHeld !== null)?.piecesHeld ?? null },
      { title: 'Reason for the order', width: 50, of: (r) => r.why },
    ],
    recall.trace.contacts,
  );
}

function lots(paper: CasePaper): Sheet {
  const detail = (l: Lot) => paper.details.get(l.id);
  const heldNow = new Set(paper.recall.trace.onHand.filter(isOnHold).map((o) => o.lot));
  const share = (ppt: number | null): number | null => (ppt === null ? null : ppt / 1e12);
  return sheet<Lot>(
    'Lots',
    [
      { title: 'Traceability lot code', width: 22, of: (l) => l.code },
      { title: 'Product description', width: 28, of: (l) => l.name },
      { title: 'Type of lot', width: 22, of: (l) => onPaper('lot', l.type) },
      { title: 'Certain or possible', width: 12, of: (l) => sure(l.certain) },
      { title: 'Steps from the suspected lot', width: 12, of: (l) => l.steps },
      { title: 'Quantity', width: 12, of: (l) => quantity(l.pieces, l.mg) },
      { title: 'Unit', width: 8, of: (l) => unit(l.pieces, l.mg) },
      { title: 'Quantity as written', width: 16, of: (l) => detail(l)?.asWritten ?? null },
      { title: 'Location received or made', width: 24, of: (l) => l.site },
      when<Lot>('Received or made', (l) => [l.at, paper.clockOf(l.site).zone]),
      { title: 'Immediate previous source', width: 26, of: (l) => detail(l)?.supplier ?? null },
      { title: 'Address of that source', width: 30, of: (l) => detail(l)?.supplierAddress ?? null },
      { title: 'Reference document: delivery note', width: 18, of: (l) => detail(l)?.note ?? null },
      { title: 'Baked on', width: 12, of: (l) => ({ day: detail(l)?.bakedOn ?? null }) },
      { title: 'Best before', width: 12, of: (l) => ({ day: detail(l)?.bestBefore ?? null }) },
      { title: 'Use by', width: 12, of: (l) => ({ day: detail(l)?.useBy ?? null }) },
      { title: 'Share of the suspect, at least', width: 12, of: (l) => ({ share: share(l.minPpt) }) },
      { title: 'Share of the suspect, at most', width: 12, of: (l) => ({ share: share(l.maxPpt) }) },
      { title: 'On hold', width: 8, of: (l) => yes(heldNow.has(l.id)) },
      { title: 'Lot id', width: 38, of: (l) => l.id },
    ],
    paper.recall.trace.lots,
  );
}

/** One code, or those of the lots of which any may be what went; empty where none has one. */
const codesOf = (codes: readonly (string | null)[]): string | null =>
  codes.every((code) => code === null) ? null : codes.map((code) => code ?? 'no code').join(' or ');

function whereItWent(paper: CasePaper): Sheet {
  const byId = new Map(paper.recall.trace.lots.map((l) => [l.id, l]));
  const lot = (d: PaperDeparture): Lot | undefined => byId.get(d.lot);
  const zone = (d: PaperDeparture): string => paper.clockOf(lot(d)?.site ?? '').zone;
  return sheet<PaperDeparture>(
    'Used and dispatched',
    [
      { title: 'Traceability lot code', width: 22, of: (d) => codesOf(d.lots.map((id) => byId.get(id)?.code ?? null)) },
      { title: 'Product description', width: 28, of: (d) => [...new Set(d.lots.map((id) => byId.get(id)?.name ?? ''))].join(' or ') },
      { title: 'Quantity', width: 12, of: (d) => quantity(d.pieces, d.mg) },
      { title: 'Unit', width: 8, of: (d) => unit(d.pieces, d.mg) },
      { title: 'How known', width: 12, of: (d) => onPaper('how', d.how) },
      { title: 'Channel', width: 22, of: (d) => onPaper('channel', d.channel) },
      { title: 'Immediate next recipient', width: 26, of: (d) => d.customer },
      { title: 'Address of that recipient', width: 30, of: (d) => d.address },
      { title: 'Location shipped from', width: 24, of: (d) => lot(d)?.site ?? null },
      when<PaperDeparture>('Shipped', (d) => [d.at, zone(d)]),
      when<PaperDeparture>('Until', (d) => [d.until, zone(d)]),
      { title: 'Certain or possible', width: 12, of: (d) => sure(d.certain) },
      { title: 'Left unattended', width: 12, of: (d) => yes(d.unattended) },
      { title: 'Returned', width: 12, of: (d) => quantity(d.backPieces, d.backMg) },
      { title: 'Reference document: record', width: 38, of: (d) => d.entry },
      { title: 'Lot id', width: 38, of: (d) => d.lots.join(' ') },
    ],
    paper.departures,
  );
}

function unnamed(paper: CasePaper): Sheet {
  const zone = new Map(paper.recall.trace.lots.map((l) => [l.id, paper.clockOf(l.site).zone]));
  const zoneOf = ({ lots: [lot] }: Unnamed): string => zone.get(lot ?? '') ?? paper.zone;
  return sheet<Unnamed>(
    'Nobody can name',
    [
      { title: 'Traceability lot code', width: 22, of: (u) => u.code },
      { title: 'Product description', width: 28, of: (u) => u.name },
      { title: 'Channel', width: 22, of: (u) => onPaper('channel', u.way) },
      { title: 'Location', width: 24, of: (u) => u.site },
      when<Unnamed>('From', (u) => [u.from, zoneOf(u)]),
      when<Unnamed>('Until', (u) => [u.until, zoneOf(u)]),
      { title: 'On the counter still', width: 12, of: (u) => yes(u.until === null) },
      { title: 'Put out, or went', width: 12, of: (u) => u.pieces },
      { title: 'Went, by the records', width: 12, of: (u) => u.sold },
      { title: 'Certain or possible', width: 12, of: (u) => sure(u.certain) },
      { title: 'Lot id', width: 38, of: (u) => u.lots.join(' ') },
    ],
    paper.recall.trace.counter,
  );
}

function balances({ recall }: CasePaper): Sheet {
  const { suspectBalances, doesNotAddUp, suspects } = recall.trace;
  const amount = ({ balance }: Balance, value: number | null): number | null =>
    value === null ? null : balance.measure === 'mg' ? value / 1000 : value;
  return sheet<Balance>(
    'Balances',
    [
      { title: 'Traceability lot code', width: 22, of: (b) => b.code },
      { title: 'Product description', width: 28, of: (b) => b.name },
      { title: 'Unit', width: 8, of: (b) => (b.balance.measure === 'mg' ? 'g' : 'piece') },
      { title: 'Received or made', width: 12, of: (b) => amount(b, b.balance.received) },
      { title: 'Used and dispatched', width: 12, of: (b) => amount(b, b.balance.gone) },
      { title: 'Entries without an amount', width: 12, of: (b) => b.balance.withoutAmount },
      { title: 'Possibly gone besides, at most', width: 12, of: (b) => amount(b, b.balance.perhaps) },
      { title: 'Lost in making', width: 12, of: (b) => amount(b, b.balance.lost) },
      { title: 'In the house', width: 12, of: (b) => amount(b, b.balance.onHand?.amount ?? null) },
      { title: 'In the house at most, where not known', width: 12, of: (b) => amount(b, b.balance.atMost) },
      { title: 'In the house, how known', width: 12, of: (b) => b.balance.onHand?.by ?? null },
      { title: 'Unaccounted', width: 12, of: (b) => amount(b, b.balance.unaccounted) },
      {
        title: 'Accounted for',
        width: 12,
        of: (b) => ({ share: b.balance.accountedBasisPoints === null ? null : b.balance.accountedBasisPoints / 10_000 }),
      },
      { title: 'Finding', width: 22, of: (b) => b.balance.finding.replaceAll('-', ' ') },
      {
        title: 'Likely cause',
        width: 22,
        of: (b) => {
          const [first] = b.balance.likelyCauses;
          return first ? (first.cause === 'not-known' ? 'amount not known' : onPaper('how', first.cause)) : null;
        },
      },
      { title: 'Lot id', width: 38, of: (b) => b.lots.join(' ') },
    ],
    [...suspectBalances, ...doesNotAddUp.filter((b) => !b.lots.every((lot) => suspects.includes(lot)))],
  );
}

function flows(paper: CasePaper): Sheet {
  const byId = new Map(paper.recall.trace.lots.map((l) => [l.id, l]));
  return sheet<FlowRow>(
    'Flows',
    [
      { title: 'Traceability lot code used', width: 22, of: (f) => byId.get(f.source)?.code ?? null },
      { title: 'Product description used', width: 28, of: (f) => byId.get(f.source)?.name ?? null },
      { title: 'Quantity used', width: 12, of: (f) => quantity(f.pieces, f.mg) },
      { title: 'Unit', width: 8, of: (f) => unit(f.pieces, f.mg) },
      { title: 'How known', width: 12, of: (f) => onPaper('how', f.how) },
      { title: 'Type of use', width: 22, of: (f) => onPaper('flow', f.type) },
      { title: 'New traceability lot code', width: 22, of: (f) => byId.get(f.target)?.code ?? null },
      { title: 'New product description', width: 28, of: (f) => byId.get(f.target)?.name ?? null },
      { title: 'Location transformed', width: 24, of: (f) => byId.get(f.target)?.site ?? null },
      when<FlowRow>('Transformed', (f) => [f.at, paper.clockOf(byId.get(f.target)?.site ?? '').zone]),
      { title: 'Certain or possible', width: 12, of: (f) => sure(f.certain) },
      { title: 'Reference document: record', width: 38, of: (f) => f.entry },
      { title: 'Lot id used', width: 38, of: (f) => f.source },
      { title: 'New lot id', width: 38, of: (f) => f.target },
    ],
    paper.flows,
  );
}

function about(paper: CasePaper): Sheet {
  const { recall, business, zone, frozenUnder, recordedUnder } = paper;
  const rows: readonly (readonly [string, string | number | { time: Date }])[] = [
    ['Practice, not a real recall', yes(recall.practice)],
    ['Business', business],
    ['Case', shortId(recall.id)],
    ['Hazard', `${onPaper('hazard', recall.hazard)}: ${recall.hazardName}`],
    ['Case opened', { time: wallFigures(recall.openedAt, zone) }],
    ['Printed', { time: wallFigures(paper.printedAt, zone) }],
    ['Times', `Site time: ${zoneText(paper)}`],
    ...recall.notified.flatMap((n): [string, string | { time: Date }][] => [
      [onPaper('notifiedTo', n.to), { time: wallFigures(n.at, zone) }],
      [`${onPaper('notifiedTo', n.to)}: how, reference`, [onPaper('notifiedHow', n.how), n.reference ?? 'no reference'].join(', ')],
    ]),
    ['Lots in the frozen scope', recall.scopeLots],
    ['Hash of the scope', recall.scopeHash],
    ['Lots added since', recall.changedSince.added.length],
    ['Lots removed since', recall.changedSince.gone.length],
    ['The case is recorded under', `${recordedUnder.line}, root ${recordedUnder.rootHex}`],
    ...frozenUnder.map((s): [string, string] => [`Frozen: ${s.name}, ${countText(s.size, 'record')}`, `${s.line}, root ${s.rootHex}`]),
    ...recall.trace.alike.map((l): [string, string] => ['The same lot code, NOT in this case', `${lotText(l, paper)}, ${l.site}`]),
    ...recall.trace.hidden.map((h): [string, string] => [`Not shown here: ${h.site}`, countText(h.lots, 'lot')]),
    ['Caution', recall.trace.caution],
  ];
  return sheet(
    'About',
    [
      { title: 'What', width: 36, of: ([name]: (typeof rows)[number]) => name },
      { title: 'Value', width: 100, of: ([, value]) => value },
    ],
    rows,
  );
}
