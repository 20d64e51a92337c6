import { expect } from '@jest/globals';
import { workingSetOf, surelyGone, type NewEntryOf, type Row, type Snapshot } from '@bakehouse/records';
import type { Tablet } from '@bakehouse/offline';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import type { Demo } from './demo.js';
import { DeviceAt } from './device-at.js';
import { rawEntry } from './entries.js';
import { OneTruth } from './one-truth.js';
import type { Caller } from './people.js';
import type { Readable, Table } from './readable.js';
import { SaidByRoutes, saidByRows, SaidOnPaper, type Said } from './what-is-said.js';

const day = '2026-11-25';
const now = `${day}T09:00:00.000Z`;
const among = ({ of }: Said, held: readonly string[]): string[] => held.filter((lot) => of.includes(lot));
const sorted = (lots: Iterable<string>): string[] => [...lots].sort();

/** The demo's bakehouse on the morning after, as somebody reads it who answers for food safety, with a tablet at its table. */
export class DemoRecall {
  private constructor(
    private readonly house: Readable & Table,
    private readonly device: DeviceAt,
    private readonly tablet: Tablet,
    readonly rows: Snapshot,
  ) {}

  static async at(demo: Demo): Promise<DemoRecall> {
    const [lead, baker] = [await demo.signOn('lead'), await demo.signOn('night')];
    const { created, sites, whole } = demo.made;
    const house = {
      site: sites.bakehouse,
      house: { organisation: created.organisation },
      t: { app: demo.app, clock: new SettableClock(now) },
      lead: { caller: lead },
      baker: { caller: baker },
      tablet: { id: whole.story.world.devices.bakehouse },
      night: () => demo.night(day),
    };
    const { device, tablet } = await DeviceAt.table(house, day);
    await tablet.refresh();
    device.network = false;
    return new DemoRecall(house, device, tablet, await demo.night(day));
  }

  /** What is in the named vessel now: nobody wrote down how much. */
  inVessel(name: string): string {
    const vessel = this.rows.place.find((p) => p.type === 'vessel' && p.name === name)?.id;
    const state = workingSetOf(this.rows);
    const contents = this.rows.inUse.filter((u) => u.station === vessel && !surelyGone(state, u.lot, now));
    const lot = state.get('lot', contents.at(-1)?.lot ?? '');
    if (lot?.mg !== null) throw new Error(`no content of unknown amount in ${name}`);
    return lot.id;
  }
  vessel(name: string): string {
    return this.one(this.rows.place, (p) => p.name === name).id;
  }
  make(name: string): string {
    return this.one(this.rows.make, (m) => m.formulaName === name && m.bakeDay === day).id;
  }
  /** Today's batches of a make, by name. */
  batches(make: string): string[] {
    return sorted(this.rows.batch.filter((x) => x.make === make).map((x) => x.id));
  }
  /** The lots of a make that are in the house: its batches, and its old dough. */
  cameOf(make: string): string[] {
    const kept = this.rows.flow.filter((f) => f.source === make).map((f) => f.target);
    return sorted([...this.batches(make), ...this.rows.lot.filter((l) => l.type === 'old-dough' && kept.includes(l.id)).map((l) => l.id)]);
  }
  called(name: string): string {
    return this.one(this.rows.lot, (l) => l.name === name && l.type === 'received').id;
  }
  row(lot: string): Row<'lot'> {
    return this.one(this.rows.lot, (l) => l.id === lot);
  }

  async open(suspect: string, id: string): Promise<void> {
    const of = { id, suspect: [suspect], hazard: 'physical', hazardName: 'glass', practice: false, said: 'a lamp broke' };
    await this.lead.post('/recalls', of).expect(200);
  }
  async free(recall: string, lot: string): Promise<void> {
    const payload = { recall, lot, decision: 'freed', covers: 'this-alone', quantity: null };
    const entry = rawEntry('recall-disposition-decided', payload, { at: now, words: { why: 'sieved' } });
    const { body } = await this.lead.post('/organisation/entries', [await this.lead.signed(entry)]).expect(200);
    expect(body).toMatchObject([{ as: 'recorded' }]);
  }

  /** Typed on the tablet without a network: it says so itself from what it holds, and the service does not know yet. */
  async typed(draft: NewEntryOf<'weighed-in'> | NewEntryOf<'vessel-topped-up'>, held: readonly string[]): Promise<string> {
    const routes = new SaidByRoutes(this.house, '');
    const before = await routes.list();
    const result = await this.tablet.record(draft, this.house.baker.caller.person);
    if (!result.ok) throw new Error(JSON.stringify(result));
    expect(saidByRows(this.tablet.state.snapshot, now, this.house.site).all.onHold).toEqual(expect.arrayContaining([...held]));
    expect(await routes.list()).toEqual(before);
    return result.id;
  }

  /** The tablet sends what was typed, gets the night, and is off line again. */
  async network(): Promise<void> {
    this.device.network = true;
    await this.tablet.refresh();
    expect([this.tablet.state.pending, this.tablet.state.refused]).toEqual([[], []]);
    this.device.network = false;
  }

  /** Every lot on hold by the rules that the door decides with. */
  async truth(): Promise<string[]> {
    return sorted((await OneTruth.of(this.house, now)).held.keys());
  }

  /** Every screen, the tablet off line, the counter and the officer's page say on hold of these lots and no others; and the case with each of its papers, of those in it. */
  async everywhere(held: readonly string[], recall: string | null): Promise<void> {
    const onHold = sorted(held);
    const truth = await OneTruth.of(this.house, now);
    expect(sorted(truth.held.keys())).toEqual(onHold);
    const rows = saidByRows(this.tablet.state.snapshot, now, this.house.site);
    for (const list of [rows.all, rows.stock, rows.toSendOut, rows.batches]) expect(list.onHold).toEqual(among(list, onHold));
    const routes = new SaidByRoutes(this.house, recall ?? '');
    expect(await routes.list()).toEqual(onHold);
    // A delivery says what speaks against its goods, also where none of them is left.
    const came = await routes.deliveries();
    expect(came.onHold).toEqual(came.of.filter((lot) => (truth.standings.get(lot)?.concerns.length ?? 0) > 0));
    const officer = await routes.officer();
    expect([officer.list, officer.batches.onHold]).toEqual([onHold, among(officer.batches, onHold)]);
    await this.counterSays(routes, onHold);
    for (const lot of onHold) expect([lot, await routes.lotPage(lot)]).toEqual([lot, true]);
    if (recall !== null) await this.caseSays(recall, routes, onHold);
  }

  private async counterSays(routes: SaidByRoutes, held: readonly string[]): Promise<void> {
    const { products, lots } = await routes.counter();
    expect(held).toEqual(expect.arrayContaining(lots));
    const sold = this.rows.batch.filter((x) => x.bakedOn === day && held.includes(x.id)).map((x) => x.product);
    expect(products).toEqual(sorted(new Set(sold)));
  }

  private async caseSays(recall: string, routes: SaidByRoutes, held: readonly string[]): Promise<void> {
    const of = await routes.case();
    const byCase = among(of.inTheHouse, held);
    expect(of.inTheHouse.onHold).toEqual(byCase);
    const codes = new Map(byCase.flatMap((lot): [string, string][] => codeOf(this.rows, lot)));
    const papers = new SaidOnPaper(this.house, recall, codes);
    const coded = byCase.filter((lot) => codes.has(lot));
    const paper = await papers.recallPaper();
    expect([paper.inTheHouse.onHold, paper.times]).toEqual([coded, byCase.length]);
    expect((await papers.sheets()).onHold).toEqual(byCase);
    expect((await papers.forAComputer()).onHold).toEqual(byCase);
    expect((await papers.pack()).list).toEqual(coded);
  }

  private get lead(): Caller {
    return this.house.lead.caller;
  }
  private one<T>(rows: readonly T[], is: (row: T) => boolean): T {
    const found = rows.find(is);
    if (!found) throw new Error('not in the demo');
    return found;
  }
}

const codeOf = (rows: Snapshot, lot: string): [string, string][] => {
  const code = rows.batch.find((x) => x.id === lot)?.code;
  return code === undefined ? [] : [[lot, code]];
};
