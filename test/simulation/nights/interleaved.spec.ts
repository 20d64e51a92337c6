import {
  batchesOf,
  dueReadings,
  inStock,
  inUseView,
  loadsOf,
  lookupOf,
  makesOf,
  onHandOf,
  openDeviations,
  timersOf,
} from '@bakehouse/views';
import { surelyGone } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { bakehouse } from '../../fixtures/bakehouse.js';
import type { Book } from '../../fixtures/driver.js';
import { mulberry } from '../../support/seeded.js';
import { size } from '../../support/size.js';
import { Night, thermometer, type Fact } from './facts.js';
import { NightOfAny } from './of-any.js';

const [nights, lateNights] = [size(80, 5000), size(40, 2500)];
const bakeDay = '2026-11-25';
const now = '2026-11-25T09:00:00.000Z';

/** The facts as they might arrive: no one before what it needs, and of those that can come whichever is picked. */
function arrival(facts: readonly Fact[], pick: (ready: readonly Fact[]) => Fact | undefined): Fact[] {
  const there = new Set<string>();
  const waiting = [...facts];
  const order: Fact[] = [];
  while (waiting.length > 0) {
    const next = pick(waiting.filter((f) => f.needs.every((n) => there.has(n))));
    if (!next) throw new Error('facts that need each other');
    order.push(next);
    there.add(next.entry.id);
    waiting.splice(waiting.indexOf(next), 1);
  }
  return order;
}

const inAnyOrder =
  (random: () => number) =>
  (ready: readonly Fact[]): Fact | undefined =>
    ready[Math.floor(random() * ready.length)];
const asItHappened = (facts: readonly Fact[]): Fact[] => [...facts].sort((a, b) => (a.entry.at < b.entry.at ? -1 : 1));
const first = (ready: readonly Fact[]): Fact | undefined => asItHappened(ready)[0];

/** The same facts where what was done with the tub is told by one tablet, in order. */
function tubInOrder(facts: readonly Fact[]): Fact[] {
  const ofTub = asItHappened(facts.filter((f) => f.entry.kind.startsWith('vessel-'))).map((f) => f.entry.id);
  return facts.map((f) => ({ ...f, needs: [...f.needs, ...ofTub.slice(0, Math.max(0, ofTub.indexOf(f.entry.id))).slice(-1)] }));
}

/** Whether two things were done with the tub in one minute. Nobody knows which came first, so that it is the one that was told first: another order is another night. */
function twiceInOneMinute(facts: readonly Fact[]): boolean {
  const times = facts.flatMap((f) => (f.entry.kind.startsWith('vessel-') && f.entry.corrects === undefined ? [f.entry.at] : []));
  return new Set(times).size < times.length;
}

/** Whether a content is said to have been opened after its tub was cleaned out: only one of the two can be right, and which of them counts is not looked at here. */
function openedThoughCleanedOut(facts: readonly Fact[]): boolean {
  const at = (kind: string): Fact['entry'][] => facts.map((f) => f.entry).filter((e) => e.kind === kind);
  const opened = at('lot-opened').map((e) => ({ at: e.at, text: JSON.stringify(e.payload) }));
  return at('vessel-topped-up').some(({ id, at: came }) =>
    at('vessel-cleaned-out').some((out) => out.at >= came && opened.some((o) => o.at > out.at && o.text.includes(id))),
  );
}

function recorded(facts: readonly Fact[]): { book: Book; refused: object[] } {
  const book = bakehouse();
  const since = '2026-01-01T00:00:00.000Z';
  book.given('instrument', thermometer, { name: 'P7', type: 'probe', halfWidthMilli: 500, unit: 'degC', since });
  const refused = facts.flatMap(({ entry }) => {
    const refusal = book.take(entry);
    return refusal ? [{ id: entry.id, kind: entry.kind, problem: refusal.problem }] : [];
  });
  return { book, refused };
}

/** Opened when something was recorded, by what was known then: a warning that somebody was given, or was not. It is no part of what is true of the food. */
const warnings = new Set(['held-lot-used', 'expired-lot-used']);

const inText = (a: object, b: object): number => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1);

/** Everything that a screen says of a book, as it can be compared. */
function said({ book, refused }: ReturnType<typeof recorded>): object {
  const lookup = lookupOf(book.snapshot(), now, 'Europe/London');
  const lots = [...lookup.concerns].sort(([a], [b]) => (a < b ? -1 : 1));
  const warned = new Set(book.all('deviation').flatMap((d) => (warnings.has(d.type) ? [d.id] : [])));
  const toldOf = <T extends { readonly concern: string | null }>(findings: readonly T[]): T[] =>
    findings.filter((f) => f.concern === null || !warned.has(f.concern));
  const untold = <T extends { readonly concerns: readonly { readonly id: string }[] }>(of: T) => ({
    ...of,
    concerns: of.concerns.filter((c) => !warned.has(c.id)).sort(inText),
  });
  return {
    refused,
    lots: lots.map(([lot, reaching]) => ({
      lot,
      gone: surelyGone(lookup.state, lot, now),
      concerns: reaching
        .filter((r) => !warned.has(r.concern.id))
        .map((r) => `${r.concern.type} ${r.concern.lot} ${r.concern.id} ${r.certain ? 'certain' : 'perhaps'}`)
        .sort(),
    })),
    batches: batchesOf(lookup, bakeDay).map((b) =>
      'findings' in b.release ? { ...b, release: { ...b.release, findings: toldOf(b.release.findings) } } : b,
    ),
    onHand: onHandOf(lookup),
    stock: inStock(lookup),
    inUse: inUseView(lookup),
    makes: makesOf(lookup, bakeDay).map((m) => untold({ ...m, runs: m.runs.map(untold) })),
    loads: loadsOf(lookup, bakeDay),
    due: dueReadings(lookup, bakeDay),
    timers: timersOf(lookup, bakeDay),
    deviations: openDeviations(lookup)
      .filter((d) => !warned.has(d.id))
      .map((d) => JSON.stringify(d))
      .sort(),
  };
}

/** Each lot that is not surely gone with what holds it, by what somebody said or decided; what the amounts say is not among it. */
function holding({ book }: ReturnType<typeof recorded>): Map<string, Set<string>> {
  const lookup = lookupOf(book.snapshot(), now, 'Europe/London');
  const decided = ['recall', 'held', 'used-past-use-by'];
  return new Map(
    [...lookup.concerns].flatMap(([lot, reaching]) => {
      const ids = reaching.filter((r) => decided.includes(r.concern.type)).map((r) => r.concern.id);
      return surelyGone(lookup.state, lot, now) || ids.length === 0 ? [] : [[lot, new Set(ids)] as const];
    }),
  );
}

/** Every second night much is weighed in as one of several lots. */
function drawn(seed: number, random: () => number): Night {
  const night = new (seed % 2 === 0 ? NightOfAny : Night)(random, 2 + (seed % 3));
  for (let i = 0; i < 30; i += 1) night.next();
  return night;
}

describe('a night of several tablets', () => {
  it('is the same night in whatever order its records arrive', () => {
    for (let seed = 1; seed <= nights; seed += 1) {
      const random = mulberry(seed);
      const facts = tubInOrder(drawn(seed, random).facts);
      const [one, other] = [arrival(facts, inAnyOrder(random)), arrival(facts, inAnyOrder(random))];
      const [told, toldAgain] = [recorded(one), recorded(other)];
      expect([seed, told.refused]).toEqual([seed, []]);
      expect({ seed, ...said(toldAgain) }).toEqual({ seed, ...said(told) });
    }
  });

  it('holds no less where what was done with a tub is told late', () => {
    for (let seed = 1; seed <= lateNights; seed += 1) {
      const random = mulberry(seed);
      const { facts } = drawn(seed, random);
      if (twiceInOneMinute(facts) || openedThoughCleanedOut(facts)) continue;
      const [told, late] = [recorded(arrival(tubInOrder(facts), first)), recorded(arrival(facts, inAnyOrder(random)))];
      expect([seed, late.refused]).toEqual([seed, []]);
      const held = holding(late);
      for (const [lot, ids] of holding(told))
        expect([seed, lot, [...ids].filter((id) => !held.get(lot)?.has(id))]).toEqual([seed, lot, []]);
    }
  });
});
