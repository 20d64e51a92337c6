import { pointId, snapshotOf, type Snapshot } from '@bakehouse/records';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import type { TestApp } from './app.js';
import {
  catalogue,
  formulasOf,
  newIds,
  parties,
  placeSorts,
  pointsOf,
  type BakehouseIds,
  type FormulaKey,
  type Material,
  type Party,
  type Place,
  type PointKey,
} from './bakehouse-data.js';
import { Hand } from './hand.js';
import { enrolledTablet, House, signOn, type Caller, type Tablet } from './people.js';
import type { NewSite } from '../../apps/api/src/platform/access/index.js';

/** A wall-clock time of the night of the scenarios, when the clocks show UTC. */
export const at = (time: string, day = '2026-11-25'): string => `${day}T${time}:00+00:00`;
export const g = (figure: string) => ({ figure, unit: 'g' });
export const celsius = (figure: string) => ({ figure, unit: 'degC' });
export const pieces = (figure: number) => ({ figure: String(figure), unit: 'piece' });

const long = '2026-11-01T08:00:00+00:00';

/** What the bakehouse and its people are called by. */
interface Made {
  readonly house: House;
  readonly ids: BakehouseIds;
  readonly places: Readonly<Record<Place, string>>;
  readonly versions: Readonly<Record<FormulaKey, string>>;
  readonly plan: string;
}

/**
 * A small bakehouse founded through the API: materials, places, customers, four formulas and a plan, a baker, a food-safety lead, an owner and a tablet.
 * The baker stands at the tablet's table; the lead signs.
 */
export class Bakehouse {
  private constructor(
    readonly t: TestApp,
    private readonly made: Made,
    readonly baker: Hand,
    readonly lead: Hand,
    readonly owner: Hand,
    readonly tablet: Tablet,
    private readonly bakersPin: string,
  ) {}

  static async found(t: TestApp, site: Partial<NewSite> = {}): Promise<Bakehouse> {
    const house = await House.found(t, [{ name: 'Mill Lane', zone: 'Europe/London', ...site }]);
    const ids = newIds(t.clock.now());
    const administrator = new Hand(house, house.administrator);
    const [lead, owner] = [await house.signedOn('Lee Dehl', ['food-safety-lead']), await house.signedOn('Oona Ware', ['manager'])];
    const places = await putInUse(administrator);
    await house.decide(
      ...Object.entries(catalogue).map(([key, of]) => ({
        kind: 'specification-accepted',
        at: long,
        payload: { ...of, material: ids.materials[key as Material] },
      })), // its keys
      ...Object.entries(parties).map(([key, { name, phone, ...of }]) => ({
        kind: 'party-accepted',
        at: long,
        words: { name, phone, contactName: 'whoever answers' },
        payload: { ...of, party: ids.parties[key as Party] },
      })),
    );
    const signs = new Hand(house, lead, null);
    const versions = await approve(signs, ids);
    const content = { name: 'Plan', scope: 'all', team: 'lead', points: pointsOf(ids) };
    const plan = await signs.sign('plan-approved', { series: ids.plan, number: 1, site: null, content }, { at: long });
    const { person, pin } = await house.join('Bo Baker', ['baker']);
    const tablet = await enrolledTablet(house, 'The table');
    const baker = new Hand(house, await tablet.tap(person));
    return new Bakehouse(
      t,
      { house, ids, places, versions, plan: plan.id },
      baker,
      new Hand(house, lead),
      new Hand(house, owner),
      tablet,
      pin,
    );
  }

  get house(): House {
    return this.made.house;
  }
  get site(): string {
    return this.made.house.site;
  }
  get plan(): string {
    return this.made.plan;
  }
  material(key: Material): string {
    return this.made.ids.materials[key];
  }
  party(key: Party): string {
    return this.made.ids.parties[key];
  }
  place(key: Place): string {
    return this.made.places[key];
  }
  /** The version in force, and its formula. */
  formula(key: FormulaKey): string {
    return this.made.versions[key];
  }
  formulaId(key: FormulaKey): string {
    return this.made.ids.formulas[key];
  }
  get ids(): BakehouseIds {
    return this.made.ids;
  }
  point(key: PointKey): string {
    return pointId(this.made.plan, key);
  }
  get places(): Readonly<Record<Place, string>> {
    return this.made.places;
  }
  newId(): string {
    return uuidv7(this.t.clock.now());
  }

  /** Everybody signs on again, after the clock was moved. */
  async signOnAgain(): Promise<void> {
    await this.house.again();
    for (const hand of [this.lead, this.owner])
      hand.caller = await signOn(this.t, this.house.organisation, hand.caller.person, hand.caller.pin);
    this.baker.caller = await this.tablet.tap(this.baker.caller.person);
  }

  bakerWithPin(): Promise<Caller> {
    return this.tablet.signOn(this.baker.caller.person, this.bakersPin);
  }

  /** One line of a delivery: 25 kg with a code, unless it says otherwise. */
  line(material: Material, lot: string, of: object = {}) {
    return {
      lot,
      material: this.material(material),
      code: `L-${lot.slice(-4)}`,
      codeState: 'on-it',
      quantity: { figure: '25', unit: 'kg' },
      asWritten: null,
      bestBefore: null,
      useBy: null,
      temperature: null,
      ...of,
    };
  }

  async delivered(material: Material, time: string, of: object = {}): Promise<string> {
    const lot = this.newId();
    await this.baker.record(
      'delivery-received',
      { supplier: null, noteNumber: 'DN 1', photo: null, unattended: false, lines: [this.line(material, lot, of)] },
      { at: time },
    );
    return lot;
  }

  async begun(key: FormulaKey, time: string, of: object = {}): Promise<string> {
    const payload = {
      formulaVersion: this.formula(key),
      station: null,
      plan: this.plan,
      bakeDay: time.slice(0, 10),
      plannedMg: null,
      ...of,
    };
    return (await this.baker.record('make-begun', payload, { at: time })).id;
  }

  /** A line of what goes into a make. */
  into(material: Material, grams: string, lot: string | null = null, how = 'weighed') {
    return { material: this.material(material), lot, quantity: g(grams), how, type: 'ingredient' };
  }

  reading(key: PointKey, subjectType: string, subject: string, figure: string, of: object = {}) {
    const [measured, parameter] = key === 'dough' ? ['dough', 'dough temperature'] : ['core', 'core temperature'];
    return {
      subjectType,
      subject,
      point: this.point(key),
      measured,
      parameter,
      instrument: null,
      value: celsius(figure),
      yes: null,
      seconds: null,
      ...of,
    };
  }

  /** The rows of the night as the tablet gets them. */
  async night(day?: string): Promise<Snapshot> {
    const { body } = await this.baker.caller.get(`/sites/${this.site}/night${day === undefined ? '' : `?day=${day}`}`).expect(200);
    return snapshotOf(body.rows);
  }
}

async function putInUse(administrator: Hand): Promise<Record<Place, string>> {
  const places: Partial<Record<Place, string>> = {};
  for (const [name, type] of Object.entries(placeSorts))
    places[name as Place] = (await administrator.record('place-in-use', { name, type, within: null }, { at: long })).id; // its keys
  return places as Record<Place, string>; // each of them was put in use
}

async function approve(signs: Hand, ids: BakehouseIds): Promise<Record<FormulaKey, string>> {
  const versions: Partial<Record<FormulaKey, string>> = {};
  for (const [key, type, name, content] of formulasOf(ids)) {
    versions[key] = (await signs.sign('formula-approved', { formula: ids.formulas[key], number: 1, name, type, content }, { at: long })).id;
  }
  return versions as Record<FormulaKey, string>; // each of them was approved
}
