import { snapshotOf, type Snapshot } from '@bakehouse/records';
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
} from './bakehouse-data.js';
import { Hand } from './hand.js';
import { Premises, type Founded } from './premises.js';
import { enrolledTablet, House, signOn, type Caller, type Tablet } from './people.js';
import type { NewSite } from '../../apps/api/src/platform/access/index.js';

export { at, celsius, g, pieces } from './premises.js';

const long = '2026-11-01T08:00:00+00:00';

/**
 * A small bakehouse founded through the API: materials, places, customers, four formulas and a plan, a baker, a food-safety lead, an owner and a tablet.
 * The baker stands at the tablet's table; the lead signs.
 */
export class Bakehouse extends Premises {
  private constructor(
    readonly t: TestApp,
    readonly house: House,
    protected readonly founded: Founded,
    readonly baker: Hand,
    readonly lead: Hand,
    readonly owner: Hand,
    readonly tablet: Tablet,
    private readonly bakersPin: string,
  ) {
    super();
  }

  static async found(t: TestApp, site: Partial<NewSite> = {}, others: readonly NewSite[] = []): Promise<Bakehouse> {
    const house = await House.found(t, [{ name: 'Mill Lane', zone: 'Europe/London', ...site }, ...others]);
    const ids = newIds(t.clock.now());
    const administrator = new Hand(house, house.administrator);
    const [lead, owner] = [await house.signedOn('Lee Dehl', ['food-safety-lead']), await house.signedOn('Oona Ware', ['manager'])];
    const places = await putInUse(administrator);
    await house.decide(
      ...Object.entries(catalogue).map(([key, of]) => ({
        kind: 'specification-accepted' as const,
        at: long,
        payload: { ...of, material: ids.materials[key as Material] },
      })), // its keys
      ...Object.entries(parties).map(([key, { name, phone, ...of }]) => ({
        kind: 'party-accepted' as const,
        at: long,
        words: { name, phone, contactName: 'the person who answers' },
        payload: { ...of, party: ids.parties[key as Party] },
      })),
    );
    const signs = new Hand(house, lead, null);
    const versions = await approve(signs, ids);
    const content = {
      name: 'Plan',
      scope: 'all',
      team: 'lead',
      pastLife: { opened: 'warn', madeHere: 'warn' } as const,
      points: pointsOf(ids),
    };
    const plan = await signs.record('plan-approved', { series: ids.plan, number: 1, site: null, content }, { at: long });
    const { person, pin } = await house.join('Bo Baker', ['baker']);
    const tablet = await enrolledTablet(house, 'The table');
    const baker = new Hand(house, await tablet.tap(person));
    return new Bakehouse(
      t,
      house,
      { site: house.site, ids, places, versions, plan: plan.id },
      baker,
      new Hand(house, lead),
      new Hand(house, owner),
      tablet,
      pin,
    );
  }

  /** A probe that came into use now; its id. */
  async probeInUse(name = 'P7'): Promise<string> {
    const administrator = new Hand(this.house, this.house.administrator);
    return (await administrator.record('instrument-in-use', { name, type: 'probe', unit: 'degC', halfWidth: '0.5' })).id;
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
    versions[key] = (
      await signs.record('formula-approved', { formula: ids.formulas[key], number: 1, name, type, content }, { at: long })
    ).id;
  }
  return versions as Record<FormulaKey, string>; // each of them was approved
}
