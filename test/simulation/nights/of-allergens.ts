import { celsius, delivered, g } from '../../fixtures/bakehouse.js';
import { Night, type World } from './facts.js';

/** What a night of many allergens is about besides. */
export interface Larder {
  /** Materials that nothing is made of by formula: they go in instead of something. */
  readonly others: readonly string[];
  /** Of each formula of the world, what can be made of it. */
  readonly products: readonly (readonly string[])[];
}

/** A night in which goods go into makes that their formulas do not name, makes are changed, and the mixer is cleaned between them. */
export class NightOfAllergens extends Night {
  constructor(
    random: () => number,
    private readonly larder: Larder,
    world: World,
  ) {
    super(random, 1, world);
    for (const material of larder.others) this.comesIn(material);
  }

  override next(): void {
    const draw = this.random();
    if (draw < 0.05) return this.comesIn(this.pick(this.larder.others));
    if (draw < 0.13) return this.changeOnce();
    if (draw < 0.25) return this.cleanDown();
    if (draw < 0.32) return this.eitherOf();
    return super.next();
  }

  /** Every make ends as a batch of what its formula makes. */
  finish(): void {
    const begun = new Map(this.facts.flatMap(({ entry: e }) => (e.kind === 'make-begun' ? [[e.id, e.payload.formulaVersion]] : [])));
    for (const make of this.makes) {
      const product = this.pick(this.larder.products[this.world.formulas.indexOf(begun.get(make) ?? '')] ?? []);
      if (product !== undefined) this.bakes(make, product);
    }
  }

  private bakes(make: string, product: string): void {
    const run = this.id();
    const runs = [{ run, product, heads: null, pieces: 20, scaling: g('400') }];
    const { id } = this.add({ kind: 'divided', payload: { make, quantity: null, oldDough: null, scrap: null, runs } }, [make]);
    this.made.set(run, id);
    const bake = { oven: this.world.oven, deck: null, plan: this.world.plan, bakeDay: '2026-11-25', setting: celsius('225'), minutes: 30 };
    const load = this.add({ kind: 'load-in', payload: { ...bake, lines: [{ run, pieces: 20 }] } }, [run]).id;
    const dates = { bakedOn: '2026-11-25', bestBefore: '2026-11-28', useBy: null };
    const payload = { run, loads: [load], pieces: 20, rejects: 0, code: `B-${run.slice(-6)}`, ...dates };
    this.lots.push(this.add({ kind: 'batch-counted-out', payload }, [run]).id);
  }

  private comesIn(material: string | undefined): void {
    if (material === undefined) return;
    const lot = this.id();
    const lines = [delivered(lot, material)];
    const { id } = this.add(
      { kind: 'delivery-received', payload: { supplier: null, noteNumber: null, photo: null, unattended: false, lines } },
      [],
    );
    this.made.set(lot, id);
    this.lots.push(lot);
    this.received.push(lot);
  }

  /** Something else instead of the flour, weighed by somebody or not; less of the flour; or told in words alone. */
  private changeOnce(): void {
    const make = this.pick(this.makes);
    if (make === undefined) return;
    const draw = this.random();
    const instead = draw < 0.7 ? (this.pick(this.larder.others) ?? null) : null;
    const payload = { make, material: draw < 0.9 ? this.world.flour : null, instead };
    this.add({ kind: 'one-off-changed', payload, words: { change: 'no flour left' } }, [make]);
  }

  private cleanDown(): void {
    const type = this.random() < 0.8 ? ('wet' as const) : ('dry' as const);
    const payload = { place: this.world.mixer, type, chemical: null, dilution: null, contactSeconds: null };
    this.add({ kind: 'cleaned-down', payload }, []);
  }

  /** One lot or another went in, nobody knows which. */
  private eitherOf(): void {
    const [make, lot, other] = [this.pick(this.makes), this.pick(this.received), this.pick(this.received)];
    if (make === undefined || lot === undefined || other === undefined || lot === other) return;
    const how = { quantity: g('900'), how: 'weighed' as const, type: 'ingredient' as const };
    const lines = [{ material: this.world.flour, lot, orLots: [other], ...how }];
    this.add({ kind: 'weighed-in', payload: { make, lines } }, [make, lot, other]);
  }
}
