import type { BatchStanding, TraceView } from '@bakehouse/contracts';
import {
  accountOf,
  accountsTogether,
  allPutOn,
  heatNote,
  roomsOfGroups,
  scopeOf,
  surelyOf,
  traceForward,
  type AccountLine,
  type GroupRooms,
  type Reached as Shared,
  type TraceGraph,
  type TraceLot,
} from '@bakehouse/graph';
import { caution, earliestOf } from '@bakehouse/kernel';
import { eachAmountOnce, surelyCameFrom, surelyReached, type RoomOf } from '@bakehouse/records';
import { contactList, type ContactMade } from '../recall/contact-list.js';
import type { Standing } from '../standing/standing.js';
import { amountsUnderOneLot, namedAs, underOneLot } from './under-one-lot.js';
import { withDestroyedRest } from './destroyed-rest.js';
import { departuresOnce, type DepartureOfLot } from '../recall/departures-once.js';
import { accountRowsOf, toOwnShop } from './account-rows.js';
import { alikeOf, type AlikeRow } from './alike.js';
import { becameOf } from './divided-into.js';
import { holdsThen, type HoldsThen } from './holds-then.js';
import { onHandOf } from './where-it-is.js';
import { soldByDifference, soldUnnamed } from './sold-unnamed.js';
import type { DepartureRow, Ends, EndsWithInto, HeatRow, TraceQuestion } from './rows.js';

/** A lot of a trace with what is said of it. */
export interface Reached extends Shared {
  /** Whether it surely holds some of the suspects, or backward some of it is surely in them; otherwise it is in scope as possible. */
  readonly certain: boolean;
}
export interface TraceMaterial {
  readonly question: TraceQuestion;
  readonly graph: TraceGraph;
  /** How much of an amount may have been of a lot, by the records. */
  readonly roomOf: RoomOf;
  /** Lots that are called as the suspects are. */
  readonly alike: readonly AlikeRow[];
  readonly ends: Ends;
  readonly heat: readonly HeatRow[];
  readonly calls: readonly ContactMade[];
  readonly asOf: TraceView['asOf'];
  readonly siteName: (book: string) => string;
  readonly mayLook: (book: string) => boolean;
  readonly contactsShown: boolean;
  /** How each reached lot stands. */
  readonly standings: ReadonlyMap<string, Standing>;
  /** How the batches stand that a make was divided into, where one was asked about. */
  readonly batchStandings: ReadonlyMap<string, BatchStanding>;
  /** The first use-by date that a lot is past at its site, or null. */
  readonly pastUseBy: (lot: TraceLot) => string | null;
  /** The hash of a JSON value, the same wherever it is taken. */
  readonly hashOf: (value: unknown) => string;
}

/** A trace as a reader may see it, and the whole of it, which a case is compared with before anything is hidden. */
export interface Traced {
  readonly view: TraceView;
  readonly inScope: readonly Reached[];
}

/** What a case freezes: the lots in scope, and the hash that tells this scope from any other. */
export interface FrozenScope {
  readonly inScope: readonly Reached[];
  readonly scopeHash: string;
}
export function frozenScopeOf({ hashOf, ...m }: Pick<TraceMaterial, 'question' | 'graph' | 'roomOf' | 'hashOf'>): FrozenScope {
  const { inScope } = scopedIn(m).scope;
  return { inScope, scopeHash: hashOf(scopeList(inScope)) };
}

function scopedIn({ question, graph, roomOf }: Pick<TraceMaterial, 'question' | 'graph' | 'roomOf'>) {
  const { suspects, direction } = question;
  const shares = traceForward(direction === 'forward' ? graph : reversed(graph), suspects);
  const surely = (direction === 'forward' ? surelyReached : surelyCameFrom)(suspects, graph.flows, roomOf);
  const reached = new Map([...shares].map(([lot, share]): [string, Reached] => [lot, { ...share, certain: surely.has(lot) }]));
  return { reached, surely, scope: scopeOf(reached.values(), question.hazard, question.actionLevelPpt) };
}

/** Does the sums over what was fetched, then hides what the reader may not see. Pure. */
export function tracedOf(m: TraceMaterial): Traced {
  const { question, graph, asOf } = m;
  const as = namedAs(graph);
  const lots = amountsUnderOneLot(graph.lots, as);
  const together = withDestroyedRest({ ...underOneLot(m.ends, as), into: intoMade(graph) }, lots);
  const amounts = new Map(together.departures.map((d) => [d.id, d]));
  const ends = { ...m.ends, departures: m.ends.departures.map((d) => ({ ...d, ...amounts.get(d.id), lot: d.lot })) };
  const { surely, scope } = scopedIn(m);
  const all = scope.inScope.flatMap((r) => {
    const lot = graph.lots.get(r.lot);
    return lot ? [{ r, lot }] : [];
  });
  const seen = all.filter(({ lot }) => m.mayLook(lot.book));
  const ids = new Set(seen.map(({ lot }) => lot.id));
  const withAmounts = seen.map(({ lot }) => ({ lot: lots.get(lot.id) ?? lot }));
  const rows = question.direction === 'forward' ? accountRowsOf(withAmounts, together) : [];
  const beside = accountRowsOf(besideIn({ lots, flows: graph.flows }, together), together);
  const groups = roomsOfGroups(beside);
  const accounts = rows.map((row) => ({ lot: row.lot, balance: accountOf(row, groups) }));
  const holds = holdsThen(surely, ends, graph.lots);
  const departures = departuresIn(ends, ids, holds, groups);
  const sold = { counter: ends.counter.filter((c) => ids.has(c.lot)), departures, holds };
  const brief = briefIn(graph);
  const onHand = onHandOf(accounts, m);
  const view: TraceView = {
    suspects: [...question.suspects],
    direction: question.direction,
    hazard: question.hazard,
    rule: scope.rule,
    asOf,
    scopeHash: m.hashOf(scopeList(scope.inScope)),
    lots: seen.map(({ r, lot }) => tracedLot(r, lot, m.siteName, question.direction)),
    cases: [],
    hidden: hiddenOf(all, m),
    ...alikeOf(m),
    ends: [...departuresOnce(departures).map(endOf), ...soldByDifference(sold)],
    contacts: contactListFor(m, departures),
    contactsShown: m.contactsShown,
    counter: soldUnnamed(sold, graph, m.siteName),
    onHand,
    dividedInto: becameOf(m, onHand, ids),
    doesNotAddUp: accountsTogether([...rows, ...beside.filter(({ lot }) => !ids.has(lot.id) && m.mayLook(lot.book))])
      .filter(({ lots }) => lots.some((lot) => ids.has(lot)))
      .filter(({ balance }) => balance.finding === 'not-all-accounted' || balance.finding === 'more-than-there-was')
      .map(brief),
    heat: {
      steps: m.heat.filter((h) => ids.has(h.lot)).map((h) => ({ ...h })),
      note: question.hazard === 'microbiological' ? heatNote : null,
    },
    suspectBalances: accounts
      .filter(({ lot }) => question.suspects.includes(lot.id))
      .map(({ lot, balance }) => brief({ lots: [lot.id], balance })),
    caution,
  };
  return { view, inScope: scope.inScope };
}

/** The balance of one lot, or of those that share what left, with what people call them. */
const briefIn =
  ({ lots: all }: TraceGraph) =>
  ({ lots, balance }: AccountLine): TraceView['doesNotAddUp'][number] => {
    const of = lots.flatMap((id) => all.get(id) ?? []);
    const codes = of.some((l) => l.code !== null) ? of.map((l) => l.code ?? 'no code') : [];
    return {
      lots: [...lots],
      name: [...new Set(of.map((l) => l.name))].join(' and '),
      code: codes.length === 0 ? null : codes.join(' and '),
      balance: { ...balance, likelyCauses: [...balance.likelyCauses] },
    };
  };

/** What went into makes and contents of vessels, each amount once: what there was of them is worked out of it. */
function intoMade({ lots, flows }: TraceGraph): EndsWithInto['into'] {
  const made = flows.filter(
    (f) => ['made', 'vessel'].includes(lots.get(f.target)?.type ?? '') && !['identified', 'contact', 'perhaps'].includes(f.type),
  );
  return eachAmountOnce(made).map(({ id, target, mg, pieces, at }) => ({ id, lot: target, mg, pieces, at }));
}

/** Lots of which some went as one of several: also those that hold nothing of what is looked for, as what they had tells how much was of the others. */
function besideIn({ lots }: TraceGraph, { departures, uses }: Ends): readonly { readonly lot: TraceLot }[] {
  const ids = new Set([...departures, ...uses].flatMap((one) => (one.anyOf === null ? [] : [one.lot])));
  return [...ids].flatMap((id) => {
    const lot = lots.get(id);
    return lot ? [{ lot }] : [];
  });
}

type Departed = DepartureRow & DepartureOfLot;

/** The departures of these lots, each with whether its lot surely holds what is looked for; what went as one of several lots is put together later. */
function departuresIn(ends: Ends, ids: ReadonlySet<string>, holds: HoldsThen, groups: ReadonlyMap<string, GroupRooms>): Departed[] {
  return ends.departures
    .filter((d) => ids.has(d.lot))
    .map((d) => {
      const group = d.anyOf === null ? undefined : groups.get(d.anyOf);
      return {
        ...d,
        certain: (d.certain || d.anyOf !== null) && holds(d.lot, earliestOf(d), d),
        someCertain: group !== undefined && surelyOf(group, (lot) => holds(lot, earliestOf(d), d)),
      };
    });
}

const endOf = ({ of, lots, certain }: ReturnType<typeof departuresOnce<Departed>>[number]): TraceView['ends'][number] => {
  const { channel, customer, customerName, pieces, mg, unattended, decided, at, until } = of;
  const stays = toOwnShop(of);
  return {
    lots: lots.map((d) => d.lot),
    channel,
    customer,
    customerName,
    pieces,
    mg,
    certain,
    unattended,
    decided,
    stays,
    at,
    until,
    missing: null,
  };
};

/** The lots in scope as they are hashed: the same scope gives the same list anywhere. */
const scopeList = (inScope: readonly Reached[]) =>
  inScope
    .map(({ lot, certain, min, max }) => ({ lot, certain, min: min === null ? null : String(min), max: max === null ? null : String(max) }))
    .sort((a, b) => (a.lot < b.lot ? -1 : 1));

const reversed = (graph: TraceGraph): TraceGraph => ({
  lots: graph.lots,
  flows: graph.flows.map((f) => ({ ...f, source: f.target, target: f.source })),
});

function tracedLot(
  { certain, steps, min, max, minMg, maxMg, by }: Reached,
  lot: TraceLot,
  siteName: (book: string) => string,
  direction: string,
): TraceView['lots'][number] {
  const none = { min: null, max: null, minMg: null, maxMg: null };
  const share = direction === 'forward' ? { min, max, minMg, maxMg } : none;
  return {
    id: lot.id,
    name: lot.name,
    type: lot.type,
    code: lot.code,
    site: siteName(lot.book),
    at: lot.at,
    certain,
    steps,
    minPpt: share.min === null ? null : Number(share.min),
    maxPpt: share.max === null ? null : Number(share.max),
    mg: lot.mg === null ? null : lot.mg + allPutOn(lot.putOn).minMg,
    pieces: lot.pieces,
    heldMinMg: share.minMg,
    heldMaxMg: share.maxMg,
    by: by && { from: by.source, how: by.how, type: by.type, mg: by.mg, pieces: by.pieces },
  };
}

function hiddenOf(all: readonly { lot: TraceLot }[], { mayLook, siteName }: TraceMaterial): TraceView['hidden'] {
  const hidden = new Map<string, number>();
  for (const { lot } of all) if (!mayLook(lot.book)) hidden.set(lot.book, (hidden.get(lot.book) ?? 0) + 1);
  return [...hidden].map(([book, lots]) => ({ site: siteName(book), lots }));
}

function contactListFor({ graph, calls, contactsShown }: TraceMaterial, departed: readonly Departed[]): TraceView['contacts'] {
  const departures = departed.flatMap((d) => {
    const lot = graph.lots.get(d.lot);
    // A shop of the house is no customer: what is there is in the house.
    if (!lot || d.customer === null || toOwnShop(d)) return [];
    return [
      {
        party: d.customer,
        name: d.customerName,
        contactName: contactsShown ? d.contactName : null,
        phone: contactsShown ? d.phone : null,
        type: d.customerType ?? 'customer',
        vulnerable: d.vulnerable,
        unattended: d.unattended,
        channel: d.channel,
        lot: d.lot,
        lotName: lot.name,
        code: lot.code,
        pieces: d.pieces,
        mg: d.mg,
        certain: d.certain,
        someCertain: d.someCertain,
        anyOf: d.anyOf,
        among: d.among,
        at: d.at,
        until: d.until,
      },
    ];
  });
  return contactList(departures, calls).map((e) => ({
    ...e,
    lines: e.lines.map((l) => ({ ...l, lots: [...l.lots] })),
    // Who was spoken to stands in it: it is shown to whom the contact's name and number are.
    calls: e.calls.map((c) => ({ ...c, said: contactsShown ? c.said : null })),
  }));
}
