import { derivedId } from '@bakehouse/kernel';
import { proposedCode, proposedDates, type PayloadFor, type SubjectType } from '@bakehouse/records';
import { formulas, type FormulaKey } from '../data/formulas.js';
import { materials, type MaterialKey } from '../data/materials.js';
import type { PersonKey } from '../data/people.js';
import { points, type PointData, type PointKey } from '../data/plan.js';
import type { InstrumentKey, PlaceKey, ShopPlaceKey } from '../data/places.js';
import type { Day } from './calendar.js';
import type { Line, Stock } from './stock.js';
import { celsius, g, known, minutes, type EntryOptions, type Story } from './story.js';

export interface Batch {
  readonly id: string;
  readonly run: string;
  readonly make: string;
  readonly product: MaterialKey;
  readonly pieces: number;
  readonly code: string;
  readonly loads: readonly string[];
  left: number;
}
type Value = { readonly celsius: string } | { readonly minutes: number } | { readonly yes: boolean };
type Given = Partial<Record<MaterialKey, readonly Line[]>>;
type StagePassed = PayloadFor<'stage-passed'>;

/** What bakers do, each said with one record, on one day of the story. */
export class Kitchen {
  /** @param typedAt when it reaches the door, where that is later than it happens: a tablet was off line, or somebody catches up. */
  constructor(
    readonly story: Story,
    readonly stock: Stock,
    readonly day: Day,
    readonly by: PersonKey,
    private readonly typedAt?: number,
  ) {}

  options(time: string, of: Partial<EntryOptions> = {}): EntryOptions {
    return { at: this.day.ms(time), by: this.by, ...(this.typedAt === undefined ? {} : { typedAt: this.typedAt }), ...of };
  }

  begin(
    formula: FormulaKey,
    time: string,
    station: PlaceKey,
    of: Partial<EntryOptions> & { bakeDay?: string; plan?: string; grams?: number } = {},
  ): string {
    const { bakeDay = this.day.date, plan = this.story.plan, grams, ...options } = of;
    const all = formulas[formula].lines.reduce((sum, [, each]) => sum + each, 0);
    return this.story.tell(
      'make-begun',
      {
        formulaVersion: known(this.story.version, formula),
        station: this.story.place[station],
        plan,
        bakeDay,
        plannedMg: (grams ?? all) * 1000,
      },
      this.options(time, options),
    );
  }

  /** Weighs in what the formula says from what is open, but for lines that are given. */
  weigh(make: string, formula: FormulaKey, time: string, station: PlaceKey, given: Given = {}, scale = 1): string {
    return this.weighed(make, this.linesOf(formula, time, station, given, scale), time);
  }

  linesOf(formula: FormulaKey, time: string, station: PlaceKey, given: Given = {}, scale = 1): Line[] {
    return formulas[formula].lines.flatMap(
      ([material, grams]) => given[material] ?? this.stock.take(material, station, grams * scale, this.day.ms(time), this.by),
    );
  }

  weighed(make: string, lines: readonly Line[], time: string, of: Partial<EntryOptions> = {}): string {
    return this.story.tell('weighed-in', { make, lines: [...lines] }, this.options(time, of));
  }

  line(material: MaterialKey, lot: string | null, grams: number, of: Partial<Pick<Line, 'how' | 'type'>> = {}): Line {
    return { material: this.story.material[material], lot, quantity: g(grams), how: 'weighed', type: 'ingredient', ...of };
  }

  /** Mixes and reads the dough: the temperatures around it give the friction factor. */
  mix(
    make: string,
    formula: 'sourdough' | 'white' | 'baguette',
    time: string,
    point: PointKey,
    of: { dough?: number; fast?: number; friction?: number } = {},
  ): string {
    const { chance } = this.story;
    const {
      dough: { min, max },
      friction,
      minutes: [slow, fast],
    } = formulas[formula];
    const dough = of.dough ?? (Number(min) + Number(max)) / 2 + chance.whole(-8, 8) / 10;
    const [flour, room] = [19 + chance.whole(-10, 10) / 10, 22 + chance.whole(-15, 15) / 10];
    const water = 3 * dough - flour - room - (of.friction ?? Number(friction) + chance.whole(-12, 12) / 10);
    const t = (figure: number) => celsius(figure.toFixed(1));
    this.story.tell(
      'mixed',
      { make, minutesSlow: slow, minutesFast: of.fast ?? fast, water: t(water), flour: t(flour), room: t(room), dough: t(dough) },
      this.options(time),
    );
    return this.read(point, 'make', make, { celsius: dough.toFixed(1) }, time);
  }

  read(
    key: PointKey,
    subjectType: SubjectType,
    subject: string,
    value: Value,
    time: string,
    of: Partial<EntryOptions> & { instrument?: InstrumentKey | 'second' | null; seconds?: number; plan?: string } = {},
  ): string {
    const { instrument: named = 'p1', seconds = null, plan, ...options } = of;
    const instrument = named === 'second' ? this.story.secondProbe : named;
    const { measured, parameter }: PointData = points[key];
    const isTemperature = 'celsius' in value;
    return this.story.tell(
      'reading-taken',
      {
        subjectType,
        subject,
        point: this.story.point(key, plan),
        measured,
        parameter,
        instrument: isTemperature && instrument !== null ? this.story.instrument[instrument] : null,
        value: 'celsius' in value ? celsius(value.celsius) : 'minutes' in value ? minutes(value.minutes) : null,
        yes: 'yes' in value ? value.yes : null,
        seconds,
      },
      this.options(time, options),
    );
  }

  /** Divides a make into runs; gives their ids in order, and the lot of the old dough kept. */
  divide(
    make: string,
    time: string,
    runs: readonly (readonly [MaterialKey, pieces: number, grams: number])[],
    { scrap, oldDough = 0 }: { scrap: number; oldDough?: number },
  ): { runs: string[]; oldDough: string } {
    const at = this.day.ms(time);
    const given = runs.map(([product, pieces, grams]) => ({
      run: this.story.newId(at),
      product: this.story.material[product],
      heads: null,
      pieces,
      scaling: g(grams),
    }));
    const id = this.story.tell(
      'divided',
      { make, quantity: null, runs: given, oldDough: oldDough === 0 ? null : g(oldDough), scrap: scrap === 0 ? null : g(scrap) },
      this.options(time),
    );
    return { runs: given.map((r) => r.run), oldDough: derivedId(id, 'old dough') };
  }

  pass(
    step: StagePassed['step'],
    way: StagePassed['way'],
    place: PlaceKey | null,
    time: string,
    ...subjects: readonly (readonly [StagePassed['subjects'][number]['type'], string])[]
  ): string {
    return this.story.tell(
      'stage-passed',
      { subjects: subjects.map(([type, id]) => ({ type, id })), place: place && this.story.place[place], step, way },
      this.options(time),
    );
  }

  addOn(run: string, material: MaterialKey, lot: string | null, grams: number | null, time: string): string {
    const quantity = grams === null ? null : g(grams);
    return this.story.tell(
      'added-on',
      {
        targetType: 'run',
        target: run,
        afterOven: false,
        lines: [{ material: this.story.material[material], lot, quantity, how: grams === null ? 'estimated' : 'weighed' }],
      },
      this.options(time),
    );
  }

  /** A load in and out again. */
  bake(
    time: string,
    out: string,
    oven: PlaceKey,
    deck: PlaceKey | null,
    setting: readonly [degrees: number, minutes: number],
    ...lines: readonly (readonly [run: string, pieces: number])[]
  ): string {
    const load = this.story.tell(
      'load-in',
      {
        oven: this.story.place[oven],
        deck: deck && this.story.place[deck],
        plan: this.story.plan,
        bakeDay: this.day.date,
        setting: celsius(String(setting[0])),
        minutes: setting[1],
        lines: lines.map(([run, pieces]) => ({ run, pieces })),
      },
      this.options(time),
    );
    this.story.tell('load-stepped', { load, step: 'out', minutes: null }, this.options(out));
    return load;
  }

  /** Counts a run out as a batch, coded and dated as the device proposes. */
  count(
    product: MaterialKey,
    make: string,
    run: string,
    loads: readonly string[],
    pieces: number,
    rejects: number,
    time: string,
    mark = '',
  ): Batch {
    const bakedOn = this.day.date;
    const code = `${proposedCode(bakedOn, this.story.material[product])}${mark}`;
    const dateType = product === 'slice' || product === 'roll' ? 'use-by' : 'best-before';
    const dates = proposedDates(bakedOn, { lifeDays: materials[product].lifeDays, dateType });
    const id = this.story.tell(
      'batch-counted-out',
      { run, loads: [...loads], pieces, rejects, code, bakedOn, ...dates },
      this.options(time),
    );
    return { id, run, make, product, pieces, code, loads, left: pieces };
  }

  release(batch: Batch, time: string): string {
    return this.story.tell('released-by-rule', { batch: batch.id }, this.options(time));
  }
  /** By exception, signed, where the rule finds something that will not be known any better. */
  releaseInSpite(batch: Batch, time: string, why: string): string {
    return this.story.tell('released-by-exception', { batch: batch.id }, this.options(time, { by: 'lead', words: { why } }));
  }
  placeId(key: PlaceKey | ShopPlaceKey): string {
    return this.story.place[key];
  }
}
