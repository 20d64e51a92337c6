import {
  counterView,
  deliveries,
  inspectionView,
  openThings,
  recallPaper,
  recallView,
  traceView,
  type BatchStanding,
  type TraceView,
} from '@bakehouse/contracts';
import { surelyGone } from '@bakehouse/records';
import { batchesOf, inStock, inUseView, leftInLot, lookupOf, onHandOf, type BatchView, type Lookup, type Standing } from '@bakehouse/views';
import { expect } from '@jest/globals';
import { batchStandings, followedStandingOf, standingOf } from '../../apps/api/src/modules/standing/index.js';
import { Tenancy } from '../../apps/api/src/platform/database/index.js';
import { Books } from '../../apps/api/src/platform/ledger/index.js';
import type { AmountsExpected } from './amounts-expected.js';
import type { Readable } from './readable.js';

const bakeDay = '2026-11-25';
const byDate: readonly string[] = ['expired-lot-used', 'past-life-used'];
const ids = (concerns: readonly { readonly id: string }[]): string[] => concerns.map((c) => c.id).sort();
const inOrder = (map: ReadonlyMap<string, unknown>): unknown[] => [...map].sort(([x], [y]) => (x < y ? -1 : 1));

/** How every lot and batch of a house stands, by the rules that the door decides with, and what each screen, list, paper and route is held against. */
export class OneTruth {
  private constructor(
    private readonly b: Readable,
    private readonly now: string,
    readonly standings: ReadonlyMap<string, Standing>,
    private readonly batchStandings: ReadonlyMap<string, BatchStanding>,
  ) {}

  static async of(b: Readable, now: string): Promise<OneTruth> {
    const { organisation } = b.house;
    const books = await b.t.app.get(Books, { strict: false }).all(organisation);
    return b.t.app.get(Tenancy, { strict: false }).inOrganisation(organisation, async (client) => {
      const { rows } = await client.query<{ id: string; type: string }>('SELECT id, type FROM lot WHERE organisation = $1', [organisation]);
      const all = (type: string | null): string[] => rows.flatMap((r) => (type === null || r.type === type ? [r.id] : []));
      const { standings } = await followedStandingOf(client, books, all(null), now);
      expect((await standingOf(client, books, all(null), now)).standings).toEqual(standings);
      return new OneTruth(b, now, standings, await batchStandings(client, books, all('batch'), now));
    });
  }

  /** What is on hold: something speaks against it, and it is not surely gone. */
  get held(): ReadonlyMap<string, string[]> {
    return new Map([...this.standings].flatMap(([lot, s]) => (!s.gone && s.concerns.length > 0 ? [[lot, ids(s.concerns)] as const] : [])));
  }

  /** The tablet, off line from here on. */
  async isTheTablets(): Promise<Lookup> {
    const lookup = lookupOf(await this.b.night(), this.now, 'Europe/London', this.b.site);
    for (const { id } of lookup.snapshot.lot)
      expect([id, surelyGone(lookup.state, id, this.now), ids((lookup.concerns.get(id) ?? []).map((r) => r.concern))]).toEqual([
        id,
        this.standings.get(id)?.gone,
        this.concernsOf(id),
      ]);
    for (const l of [...inStock(lookup), ...onHandOf(lookup).flatMap((p) => p.lots)])
      // That its date is over, or its life where the plan only warns of it, is said of a lot that nothing else speaks against.
      expect([l.id, l.trouble !== null && !byDate.includes(l.trouble)]).toEqual([l.id, this.concernsOf(l.id).length > 0]);
    for (const batch of batchesOf(lookup, bakeDay)) this.isTheBatchs(batch);
    return lookup;
  }

  async isTheLists(): Promise<void> {
    const open = openThings.parse(await this.get(`/sites/${this.b.site}/open`));
    expect(inOrder(new Map(open.held.map((h) => [h.lot, ids(h.concerns)])))).toEqual(inOrder(this.held));
    for (const line of deliveries.parse(await this.get(`/sites/${this.b.site}/deliveries`)).flatMap((d) => d.lines))
      expect([line.lot, ids(line.concerns)]).toEqual([line.lot, this.concernsOf(line.lot)]);
  }

  async isTheOfficersAndTheCounters(lookup: Lookup): Promise<void> {
    const batches = batchesOf(lookup, bakeDay);
    const inspected = inspectionView.parse(await this.get(`/sites/${this.b.site}/inspection?from=${bakeDay}&until=${bakeDay}`));
    expect(inspected.batches.map((x) => x.id).sort()).toEqual(batches.map((x) => x.id).sort());
    for (const { id, standing } of inspected.batches) expect([id, standing]).toEqual([id, this.batchStandings.get(id)]);
    const counter = counterView.parse(await this.get(`/counter/${this.b.site}`));
    for (const p of counter.products)
      expect([p.product, p.onHold]).toEqual([p.product, batches.some((x) => x.product === p.product && this.held.has(x.id))]);
  }

  async isTheTraces(lot: string): Promise<void> {
    const trace = traceView.parse(await this.get(`/lots/${lot}/trace?direction=forward`));
    for (const l of trace.onHand) expect([l.lot, ids(l.concerns)]).toEqual([l.lot, this.concernsOf(l.lot)]);
  }

  /** The case and its paper. */
  async isTheCases(recall: string): Promise<void> {
    const view = recallView.parse(await this.get(`/recalls/${recall}`));
    const byCase = [...this.held].flatMap(([lot, of]) => (of.includes(recall) ? [lot] : [])).sort();
    expect(view.undecided.map((u) => u.lot).sort()).toEqual(byCase);
    expect(view.held).toBe(byCase.length);
    for (const l of view.trace.onHand) expect([l.lot, ids(l.concerns)]).toEqual([l.lot, this.concernsOf(l.lot)]);
    for (const lot of byCase) expect(view.trace.onHand.map((l) => l.lot)).toContain(lot);
  }

  /**
   * Whether a lot surely holds what a case or a hold began at, or perhaps: how each lot stands, on the tablet, and in the trace of what it began at, which
   * follows what nobody decided about yet. How many of either were met.
   */
  async areTheWords(lookup: Lookup): Promise<{ readonly certain: number; readonly perhaps: number }> {
    const met = { certain: 0, perhaps: 0 };
    const begins = new Map<string, Map<string, boolean>>();
    for (const [lot, { concerns }] of this.standings)
      for (const { id, type, from, certain } of concerns)
        if (type === 'held' || type === 'recall') {
          const key = type === 'held' ? `/lots/${from}/trace?direction=forward` : `/recalls/${id}`;
          begins.set(key, (begins.get(key) ?? new Map<string, boolean>()).set(lot, certain));
          const there = lookup.concerns.get(lot)?.find((r) => r.concern.id === id);
          if (there) expect([lot, id, there.certain]).toEqual([lot, id, certain]);
        }
    for (const [path, words] of begins) {
      const body = await this.get(path);
      const { lots } = path.startsWith('/recalls') ? recallView.parse(body).trace : traceView.parse(body);
      const traced = new Map(lots.map((l) => [l.id, l.certain]));
      for (const [lot, certain] of words) {
        expect([path, lot, traced.get(lot)]).toEqual([path, lot, certain]);
        met[certain ? 'certain' : 'perhaps'] += 1;
      }
    }
    return met;
  }

  /** How much is left of what came in or was counted out: on the stock page, at the stations, on the list to send out, in traces, and in a case and its paper. */
  async areTheAmounts(
    expected: AmountsExpected,
    lookup: Lookup,
    { lots, recall }: { readonly lots: readonly string[]; readonly recall: string },
  ): Promise<void> {
    for (const l of inStock(lookup)) if (l.type === 'received') expect([l.id, l.leftMg]).toEqual([l.id, expected.of(l.id)?.most]);
    for (const u of inUseView(lookup)) {
      const of = expected.of(u.lot);
      expect([u.lot, u.leftMg]).toEqual([u.lot, of ? of.most : leftInLot(lookup, u.lot)]);
    }
    for (const l of onHandOf(lookup).flatMap((p) => p.lots))
      expect([l.id, l.left === null || l.inShop === null ? null : l.left + l.inShop]).toEqual([l.id, expected.of(l.id)?.most]);
    for (const lot of lots) areOnHand(traceView.parse(await this.get(`/lots/${lot}/trace?direction=forward`)), expected);
    areOnHand(recallView.parse(await this.get(`/recalls/${recall}`)).trace, expected);
    areOnHand(recallPaper.parse(await this.get(`/recalls/${recall}/papers/recall.json`)).recall.trace, expected);
    for (const line of deliveries.parse(await this.get(`/sites/${this.b.site}/deliveries`)).flatMap((d) => d.lines))
      expect([line.lot, line.mg]).toEqual([line.lot, expected.cameAs(line.lot)]);
  }

  private concernsOf(lot: string): string[] {
    return ids(this.standings.get(lot)?.concerns ?? []);
  }

  private isTheBatchs({ id, release }: BatchView): void {
    const truth = this.batchStandings.get(id);
    if (release.state === 'destroyed') return expect([id, truth]).toEqual([id, 'gone']);
    const spokenAgainst = release.state === 'on-hold' || (release.state === 'released' && release.since.length > 0);
    expect([id, spokenAgainst]).toEqual([id, this.concernsOf(id).length > 0]);
    if (truth === 'gone' || spokenAgainst) return;
    const words = { released: 'released', 'may-go': 'ready', 'on-hold': 'on-hold', waits: 'waiting' } as const;
    expect([id, words[release.state]]).toEqual([id, truth]);
  }

  private async get(path: string): Promise<unknown> {
    return (await this.b.lead.caller.get(path).expect(200)).body;
  }
}

/** A trace knows of what went as one of several how much each of them had: it may say less than is left for certain, and never less than if all of it went of this. */
function areOnHand({ onHand, suspectBalances }: TraceView, expected: AmountsExpected): void {
  const listed = new Map(onHand.map((l) => [l.lot, l.amount]));
  for (const { lots, balance } of suspectBalances)
    for (const lot of lots) if (listed.has(lot)) expect([lot, balance.onHand?.amount ?? null]).toEqual([lot, listed.get(lot)]);
  for (const { lot, amount } of onHand) {
    const of = expected.of(lot);
    if (!of) continue;
    if (of.most === null || amount === null || of.least === of.most) expect([lot, amount]).toEqual([lot, of.most]);
    else expect([lot, amount <= of.most, amount >= (of.least ?? of.most)]).toEqual([lot, true, true]);
  }
}
