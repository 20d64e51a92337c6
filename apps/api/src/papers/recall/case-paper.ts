import type { RecallView, SealView } from '@bakehouse/contracts';
import { byText, dayText, siteDay } from '@bakehouse/kernel';
import { departuresOnce } from '@bakehouse/views';
import { wallTime } from '../../platform/clock/index.js';
import type { CaseHead, DepartureRow, FlowRow, LotDetail } from './recall-paper.query.js';

/** Everything that the papers of one case are made from. */
export interface CasePaper extends CaseHead {
  readonly recall: RecallView;
  readonly details: ReadonlyMap<string, LotDetail>;
  readonly flows: readonly FlowRow[];
  readonly departures: readonly PaperDeparture[];
  readonly frozenUnder: readonly SealView[];
  readonly recordedUnder: SealView;
  readonly printedAt: string;
  readonly printedBy: string | null;
  /** The organisation's own zone, and how a site counts its days, by its name. */
  readonly zone: string;
  readonly clockOf: (site: string) => { readonly zone: string; readonly dayStarts: string };
  readonly nameOfBook: (book: string) => string;
}

/** One departure: of more than one lot where any of them may be what went, and certain where the trace says so. */
export interface PaperDeparture extends DepartureRow {
  readonly lots: readonly string[];
}
export function paperDepartures(
  rows: readonly DepartureRow[],
  { ends, lots: traced }: Pick<RecallView['trace'], 'ends' | 'lots'>,
): PaperDeparture[] {
  const holding = new Set(traced.filter((l) => l.certain).map((l) => l.id));
  const sure = new Set(ends.filter((e) => e.certain).map(({ lots, ...e }) => keyOf(e, lots)));
  // All that was left, which a decision took, is an amount that the trace has worked out.
  const rest = (d: DepartureRow): Partial<DepartureRow> => {
    const end = ends.find((e) => d.decided === 'rest' && e.decided === 'rest' && e.at === d.at && e.lots.includes(d.lot));
    return end ? { pieces: end.pieces, mg: end.mg } : {};
  };
  const each = rows.map((d) => ({ ...d, ...rest(d), certain: (d.certain || d.anyOf !== null) && holding.has(d.lot), someCertain: false }));
  const went = departuresOnce(each).map(({ of: { someCertain: _, ...of }, lots, certain }) => {
    const ids = lots.map((d) => d.lot);
    return {
      ...of,
      certain: certain || sure.has(keyOf(of, ids)),
      lots: ids,
      backPieces: knownSum(lots.map((d) => d.backPieces)),
      backMg: knownSum(lots.map((d) => d.backMg)),
    };
  });
  return [...went, ...ends.flatMap(missingFromCounter)].sort((a, b) => byText(a.at, b.at));
}

/** What was missing when it came off a counter was sold there: the record that says so is what it rests on. */
function missingFromCounter({ missing, lots, pieces, mg, certain, at }: RecallView['trace']['ends'][number]): PaperDeparture[] {
  const [lot] = lots;
  if (missing === null || lot === undefined) return [];
  const none = { customer: null, address: null, anyOf: null, decided: null, until: null, backPieces: null, backMg: null };
  const of = { id: missing, entry: missing, lot, lots, pieces, mg, certain, at };
  return [{ ...none, ...of, channel: 'counter', how: 'counted', among: 1, unattended: false, toShop: false }];
}

type End = Pick<RecallView['trace']['ends'][number], 'channel' | 'pieces' | 'mg' | 'at'>;
const keyOf = ({ channel, pieces, mg, at }: End, lots: readonly string[]): string =>
  JSON.stringify([[...lots].sort(), channel, pieces, mg, at]);

const knownSum = (list: readonly (number | null)[]): number | null =>
  list.reduce<number | null>((sum, n) => (n === null ? sum : (sum ?? 0) + n), null);

interface SitesTraced {
  readonly trace: { readonly lots: readonly Pick<Lot, 'site'>[] };
}

export type Lot = RecallView['trace']['lots'][number];

/** How far the food has gone, by the records: still in the house, with customers, or with consumers. */
export type Reached = 'house' | 'customers' | 'consumers';

const toConsumers = new Set(['counter', 'stall', 'eaten-in', 'staff']);
const toCustomers = new Set(['dispatch', 'round', 'donation', 'feed']);

export function howFar({ ends, counter }: Pick<RecallView['trace'], 'ends' | 'counter'>): Reached {
  if (counter.some((c) => toConsumers.has(c.way)) || ends.some((e) => toConsumers.has(e.channel))) return 'consumers';
  return ends.some((e) => toCustomers.has(e.channel) && !e.stays) ? 'customers' : 'house';
}

export const codeText = (code: string | null): string => code ?? 'no code';

/** What people call a lot: its code, or the day for a lot made here without a code. */
export function lotText({ name, code, at, site }: Pick<Lot, 'name' | 'code' | 'at' | 'site'>, paper: Pick<CasePaper, 'clockOf'>): string {
  return code === null ? `${name} of ${dayText(siteDay(at, paper.clockOf(site)))}` : `${name}, ${code}`;
}

/** The lots of each trace by their ids: a paper names each of them several times, and there may be very many. */
const byId = new WeakMap<readonly Lot[], ReadonlyMap<string, Lot>>();
export function lotOf({ recall: { trace } }: Pick<CasePaper, 'recall'>, id: string): Lot | undefined {
  const lots = byId.get(trace.lots) ?? new Map(trace.lots.map((l) => [l.id, l]));
  byId.set(trace.lots, lots);
  return lots.get(id);
}

/** A lot of the case by what people call it. */
export function named(paper: CasePaper, id: string): string {
  const lot = lotOf(paper, id);
  return lot ? lotText(lot, paper) : 'a lot not shown here';
}

/** `best before 28 Nov 2026`, where the lot has a date. */
export function datesText(detail: Pick<LotDetail, 'bestBefore' | 'useBy'> | undefined): string {
  return [
    ...(detail?.useBy ? [`use by ${dayText(detail.useBy)}`] : []),
    ...(detail?.bestBefore ? [`best before ${dayText(detail.bestBefore)}`] : []),
  ].join(', ');
}

/** Times are those of the site where it happened. */
export const timeAt = (paper: CasePaper, site: string, at: string): string => wallTime(at, paper.clockOf(site).zone);

/** The zone of the times on the paper, and the zone of each site that has another. */
export function zoneText({ zone, clockOf, recall }: Pick<CasePaper, 'zone' | 'clockOf'> & { readonly recall: SitesTraced }): string {
  const others = [...new Set(recall.trace.lots.map((l) => l.site))].sort().filter((site) => clockOf(site).zone !== zone);
  return [zone, ...others.map((site) => `${clockOf(site).zone} at ${site}`)].join('; ');
}

export const shortId = (id: string): string => id.slice(-12);

/** What is told to be done, with that it is a practice said first: a box is cut out or read alone. */
export const toBeDone = ({ recall }: Pick<CasePaper, 'recall'>, text: string): string =>
  recall.practice ? `PRACTICE, DO NOTHING. In a real case: ${text}` : text;

export const practiceText = 'PRACTICE. NOT A REAL RECALL. Do not act on this paper.';
