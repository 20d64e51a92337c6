import type { PayloadFor } from '@bakehouse/records';
import { celsius, delivered, g, materials, places, plan, points, tartVersion, whiteVersion } from '../../fixtures/bakehouse.js';
import { uuid } from '../../fixtures/driver.js';
import type { AnyEntry } from '../../support/entries.js';

/** One thing that happened, on one of the tablets; what must have been recorded before it: the things that it names, and what the same tablet saved before. */
export interface Fact {
  readonly entry: AnyEntry & { readonly id: string; readonly at: string };
  readonly tablet: number;
  readonly needs: readonly string[];
}

/** What a bakehouse calls what a night is about, and where its ids come from. */
export interface World {
  readonly flour: string;
  readonly tin: string;
  readonly formulas: readonly [string, string];
  readonly mixer: string;
  readonly oven: string;
  readonly plan: string;
  readonly tinCore: string;
  readonly thermometer: string;
  newId(): string;
}

/** The thermometer that the cores are read with. */
export const thermometer = uuid(0xabc);

/** The bakehouse of the records' tests. */
export function inMemory(): World {
  let ids = 0x10_000;
  return {
    flour: materials.flour,
    tin: materials.tin,
    formulas: [whiteVersion, tartVersion],
    mixer: places.mixer,
    oven: places.deckOven,
    plan,
    tinCore: points.tinCore,
    thermometer,
    newId: () => uuid((ids += 1)),
  };
}

const pick = <T>(list: readonly T[], random: () => number): T | undefined => list[Math.floor(random() * list.length)];
const bakeDay = '2026-11-25';

/** A night as it is drawn: facts of several tablets, each at any minute, so that much of it comes late. */
export class Night {
  readonly facts: Fact[] = [];
  /** What can be weighed in, held or counted, and who brought it into being. */
  readonly lots: string[] = [];
  private readonly makes: string[] = [];
  private readonly runs: string[] = [];
  private readonly batches: string[] = [];
  private readonly loads: { readonly id: string; readonly run: string }[] = [];
  private readonly made = new Map<string, string>();

  constructor(
    private readonly random: () => number,
    private readonly tablets: number,
    private readonly world: World = inMemory(),
  ) {
    for (let i = 0; i < 3; i += 1) this.receive();
    for (let i = 0; i < 2; i += 1) this.begin();
  }

  /** One more thing happens. */
  next(): void {
    const draw = this.random();
    if (draw < 0.06) return this.receive();
    if (draw < 0.12) return this.begin();
    if (draw < 0.36) return this.weigh();
    if (draw < 0.44) return this.divide();
    if (draw < 0.5) return this.load();
    if (draw < 0.56) return this.countOut();
    if (draw < 0.64) return this.read();
    return this.speak();
  }

  private speak(): void {
    const draw = this.random();
    if (draw < 0.25) return this.about((lot) => ({ kind: 'hold-placed', payload: { lot, deviation: null }, words: { because: 'glass' } }));
    if (draw < 0.45) return this.send();
    if (draw < 0.6) return this.count();
    if (draw < 0.7) return this.check();
    if (draw < 0.8) return this.report();
    if (draw < 0.88) return this.withdraw();
    return this.correct();
  }

  private receive(): void {
    const lot = this.id();
    const quantity = this.random() < 0.2 ? null : { figure: String(this.grams(500, 25_000)), unit: 'g' as const };
    const lines = [delivered(lot, this.world.flour, { quantity })];
    const payload: PayloadFor<'delivery-received'> = { supplier: null, noteNumber: null, photo: null, unattended: false, lines };
    const { id } = this.add({ kind: 'delivery-received', payload }, []);
    this.made.set(lot, id);
    this.lots.push(lot);
  }

  private begin(): void {
    const formulaVersion = this.world.formulas[this.random() < 0.6 ? 0 : 1];
    const { id } = this.add(
      { kind: 'make-begun', payload: { formulaVersion, station: this.world.mixer, plan: this.world.plan, bakeDay, plannedMg: null } },
      [],
    );
    this.made.set(id, id);
    this.makes.push(id);
    this.lots.push(id);
  }

  private weigh(): void {
    const make = pick(this.makes, this.random);
    if (make === undefined) return;
    const lines = Array.from({ length: 1 + Math.floor(this.random() * 2) }, () => {
      const lot = this.random() < 0.1 ? null : (pick(this.sources(make), this.random) ?? null);
      const quantity = this.random() < 0.15 ? null : g(String(this.grams(1, 9_000)));
      return { material: this.world.flour, lot, quantity, how: 'weighed' as const, type: 'ingredient' as const };
    });
    this.add({ kind: 'weighed-in', payload: { make, lines } }, [make, ...lines.flatMap((l) => l.lot ?? [])]);
  }

  /** What a make can take: what came in, and makes begun before it, so that nothing goes into itself. */
  private sources(make: string): string[] {
    const before = this.makes.slice(0, this.makes.indexOf(make));
    return this.lots.filter((l) => !this.makes.includes(l) || before.includes(l));
  }

  private divide(): void {
    const make = pick(this.makes, this.random);
    if (make === undefined) return;
    const run = this.id();
    const runs = [{ run, product: this.world.tin, heads: null, pieces: this.grams(1, 20), scaling: g('910') }];
    const oldDough = this.random() < 0.3 ? g('1200') : null;
    const { id } = this.add({ kind: 'divided', payload: { make, quantity: null, oldDough, scrap: null, runs } }, [make]);
    this.made.set(run, id);
    this.runs.push(run);
  }

  private load(): void {
    const run = pick(this.runs, this.random);
    if (run === undefined) return;
    const lines = [{ run, pieces: this.grams(1, 12) }];
    const payload = { oven: this.world.oven, deck: null, plan: this.world.plan, bakeDay, setting: celsius('225'), minutes: 30, lines };
    const { id } = this.add({ kind: 'load-in', payload }, [run]);
    this.made.set(id, id);
    this.loads.push({ id, run });
  }

  private countOut(): void {
    const run = pick(this.runs, this.random);
    if (run === undefined) return;
    const loads = this.loads.filter((l) => l.run === run).map((l) => l.id);
    const code = `TIN-${this.batches.length}`;
    const payload = { run, loads, pieces: this.grams(1, 20), rejects: 0, code, bakedOn: bakeDay, bestBefore: '2026-11-28', useBy: null };
    const { id } = this.add({ kind: 'batch-counted-out', payload }, [run, ...loads]);
    this.made.set(id, id);
    this.batches.push(id);
    this.lots.push(id);
  }

  private read(): void {
    const load = pick(this.loads, this.random);
    if (load === undefined) return;
    const figure = ['87.9', '93.8', '95.1', '97'][Math.floor(this.random() * 4)] ?? '97';
    const instrument = this.random() < 0.5 ? this.world.thermometer : null;
    const taken = {
      measured: 'core',
      parameter: 'core temperature',
      instrument,
      value: celsius(figure),
      yes: null,
      seconds: null,
    } as const;
    this.add({ kind: 'reading-taken', payload: { subjectType: 'load', subject: load.id, point: this.world.tinCore, ...taken } }, [load.id]);
  }

  private check(): void {
    const shown = celsius(this.random() < 0.5 ? '2.6' : '0.1');
    const at = { pressurePascal: null, altitudeMetres: null };
    this.add({ kind: 'instrument-checked', payload: { instrument: this.world.thermometer, way: 'ice', shown, at, tolerance: null } }, []);
  }

  private report(): void {
    const make = pick(this.makes, this.random);
    if (make === undefined) return;
    const payload = { subjectType: 'make', subject: make, class: 'ccp', holds: this.random() < 0.7 } as const;
    this.add({ kind: 'deviation-reported', payload, words: { what: 'a smell' } }, [make]);
  }

  private send(): void {
    const lots = [pick(this.batches, this.random), this.random() < 0.2 ? pick(this.batches, this.random) : undefined];
    const some = [...new Set(lots.flatMap((l) => l ?? []))];
    if (some.length === 0) return;
    const quantity = this.random() < 0.15 ? null : ({ figure: String(this.grams(1, 20)), unit: 'piece' } as const);
    const payload = { channel: 'dispatch', customer: null, unattended: false, until: null } as const;
    this.add({ kind: 'sent-out', payload: { ...payload, lines: [{ lots: some, quantity, how: 'counted' }] } }, some);
  }

  private count(): void {
    const lot = pick(this.lots, this.random);
    if (lot === undefined) return;
    const unit = this.batches.includes(lot) ? ('piece' as const) : ('g' as const);
    this.add({ kind: 'lot-counted', payload: { lot, place: null, quantity: { figure: String(this.grams(0, 12)), unit } } }, [lot]);
  }

  /** A weighing is taken back by the tablet that wrote it, or says something else. */
  private withdraw(): void {
    const fact = this.weighing();
    if (fact) this.add({ kind: 'entry-withdrawn', payload: {}, corrects: fact.entry.id, words: { reason: 'wrong bowl' } }, [], fact);
  }
  private correct(): void {
    const fact = this.weighing();
    if (fact?.entry.kind !== 'weighed-in') return;
    const { make, lines } = fact.entry.payload;
    const payload = { make, lines: lines.map((l) => ({ ...l, quantity: g(String(this.grams(1, 9_000))) })) };
    this.add({ kind: 'weighed-in', payload, corrects: fact.entry.id, words: { reason: 'mistyped' } }, [], fact);
  }
  private weighing(): Fact | undefined {
    const changed = new Set(this.facts.flatMap((f) => f.entry.corrects ?? []));
    return pick(
      this.facts.filter((f) => f.entry.kind === 'weighed-in' && f.entry.corrects === undefined && !changed.has(f.entry.id)),
      this.random,
    );
  }

  private about(of: (lot: string) => AnyEntry): void {
    const lot = pick(this.lots, this.random);
    if (lot !== undefined) this.add(of(lot), [lot]);
  }

  private add(entry: AnyEntry, names: readonly string[], after?: Fact): Fact['entry'] {
    const tablet = Math.floor(this.random() * this.tablets);
    const needs = [...names.flatMap((n) => this.made.get(n) ?? []), ...(after ? [after.entry.id] : [])];
    const written = { ...entry, id: this.id(), at: this.time() };
    this.facts.push({ entry: written, tablet, needs });
    return written;
  }

  private id(): string {
    return this.world.newId();
  }
  private grams(least: number, most: number): number {
    return least + Math.floor(this.random() * (most - least + 1));
  }
  private time(): string {
    return new Date(Date.parse('2026-11-25T01:00:00Z') + Math.floor(this.random() * 360) * 60_000).toISOString();
  }
}
