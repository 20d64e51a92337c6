import { celsius, g, materials, places, plan, points, tartVersion, whiteVersion } from '../../fixtures/bakehouse.js';
import { uuid } from '../../fixtures/driver.js';
import type { AnyEntry } from '../../support/entries.js';
import { NightCases } from './cases.js';
import type { Fact, World } from './drawn.js';

export type { Fact, World } from './drawn.js';

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
    tub: places.tub,
    plan,
    tinCore: points.tinCore,
    thermometer,
    newId: () => uuid((ids += 1)),
  };
}

const bakeDay = '2026-11-25';

/** A night as it is drawn: facts of several tablets, each at any minute, so that much of it comes late. */
export class Night extends NightCases {
  protected readonly makes: string[] = [];
  private readonly runs: string[] = [];
  private readonly batches: string[] = [];
  private readonly loads: { readonly id: string; readonly run: string }[] = [];

  constructor(random: () => number, tablets: number, world: World = inMemory()) {
    super(random, tablets, world);
    for (let i = 0; i < 3; i += 1) this.receive();
    for (let i = 0; i < 2; i += 1) this.begin();
  }

  /** One more thing happens. */
  next(): void {
    const draw = this.random();
    if (draw < 0.06) return this.receive();
    if (draw < 0.11) return this.begin();
    if (draw < 0.32) return this.weigh();
    if (draw < 0.39) return this.divide();
    if (draw < 0.44) return this.load();
    if (draw < 0.5) return this.countOut();
    if (draw < 0.57) return this.read();
    if (draw < 0.73) return this.stock();
    if (draw < 0.81) return this.recall();
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
    const make = this.pick(this.makes);
    if (make === undefined) return;
    const lines = Array.from({ length: 1 + Math.floor(this.random() * 2) }, () => {
      const lot = this.random() < 0.1 ? null : (this.pick(this.sources(make)) ?? null);
      return { material: this.world.flour, lot, quantity: this.grams(9_000), how: 'weighed' as const, type: 'ingredient' as const };
    });
    const { id } = this.add({ kind: 'weighed-in', payload: { make, lines } }, [make, ...lines.flatMap((l) => l.lot ?? [])]);
    this.nameless(id, lines);
  }

  /** What a make can take: what came in, and makes begun before it, so that nothing goes into itself. */
  protected sources(make: string): string[] {
    const before = this.makes.slice(0, this.makes.indexOf(make));
    return this.lots.filter((l) => !this.makes.includes(l) || before.includes(l));
  }

  private divide(): void {
    const make = this.pick(this.makes);
    if (make === undefined) return;
    const run = this.id();
    const runs = [{ run, product: this.world.tin, heads: null, pieces: this.whole(1, 20), scaling: g('910') }];
    const oldDough = this.random() < 0.3 ? g('1200') : null;
    const { id } = this.add({ kind: 'divided', payload: { make, quantity: null, oldDough, scrap: null, runs } }, [make]);
    this.made.set(run, id);
    this.runs.push(run);
  }

  private load(): void {
    const run = this.pick(this.runs);
    if (run === undefined) return;
    const lines = [{ run, pieces: this.whole(1, 12) }];
    const payload = { oven: this.world.oven, deck: null, plan: this.world.plan, bakeDay, setting: celsius('225'), minutes: 30, lines };
    const { id } = this.add({ kind: 'load-in', payload }, [run]);
    this.made.set(id, id);
    this.loads.push({ id, run });
  }

  protected countOut(): void {
    const run = this.pick(this.runs);
    if (run === undefined) return;
    const loads = this.loads.filter((l) => l.run === run).map((l) => l.id);
    const code = `TIN-${this.batches.length}`;
    const payload = { run, loads, pieces: this.whole(1, 20), rejects: 0, code, bakedOn: bakeDay, bestBefore: '2026-11-28', useBy: null };
    const { id } = this.add({ kind: 'batch-counted-out', payload }, [run, ...loads]);
    this.made.set(id, id);
    this.batches.push(id);
    this.lots.push(id);
  }

  private read(): void {
    const load = this.pick(this.loads);
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
    const make = this.pick(this.makes);
    if (make === undefined) return;
    const payload = { subjectType: 'make', subject: make, class: 'ccp', holds: this.random() < 0.7 } as const;
    this.add({ kind: 'deviation-reported', payload, words: { what: 'a smell' } }, [make]);
  }

  private send(): void {
    const lots = [this.pick(this.batches), this.random() < 0.2 ? this.pick(this.batches) : undefined];
    const some = [...new Set(lots.flatMap((l) => l ?? []))];
    if (some.length === 0) return;
    const quantity = this.random() < 0.15 ? null : ({ figure: String(this.whole(1, 20)), unit: 'piece' } as const);
    const payload = { channel: 'dispatch', customer: null, unattended: false, until: null } as const;
    this.add({ kind: 'sent-out', payload: { ...payload, lines: [{ lots: some, quantity, how: 'counted' }] } }, some);
  }

  private count(): void {
    const lot = this.pick(this.lots);
    if (lot === undefined) return;
    const unit = this.batches.includes(lot) ? ('piece' as const) : ('g' as const);
    this.add({ kind: 'lot-counted', payload: { lot, place: null, quantity: { figure: String(this.whole(0, 12)), unit } } }, [lot]);
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
    const payload = { make, lines: lines.map((l) => ({ ...l, quantity: g(String(this.whole(1, 9_000))) })) };
    this.add({ kind: 'weighed-in', payload, corrects: fact.entry.id, words: { reason: 'mistyped' } }, [], fact);
  }
  private weighing(): Fact | undefined {
    const changed = new Set(this.facts.flatMap((f) => f.entry.corrects ?? []));
    return this.pick(this.facts.filter((f) => f.entry.kind === 'weighed-in' && f.entry.corrects === undefined && !changed.has(f.entry.id)));
  }

  private about(of: (lot: string) => AnyEntry): void {
    const lot = this.pick(this.lots);
    if (lot !== undefined) this.add(of(lot), [lot]);
  }
}
