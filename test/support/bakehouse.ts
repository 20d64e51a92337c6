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
    const people = await house.joinAll({
      lead: { name: 'Lee Dehl', roles: ['food-safety-lead'] },
      owner: { name: 'Oona Ware', roles: ['manager'] },
      baker: { name: 'Bo Baker', roles: ['baker'] },
    });
    const signedOn = async (who: 'lead' | 'owner') =>
      new Hand(house, await signOn(t, house.organisation, people[who].person, people[who].pin));
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
    const lead = await signedOn('lead');
    const { versions, plan } = await approve(new Hand(house, lead.caller, null), ids);
    const tablet = await enrolledTablet(house, 'The table');
    const baker = new Hand(house, await tablet.tap(people.baker.person));
    return new Bakehouse(
      t,
      house,
      { site: house.site, ids, places, versions, plan },
      baker,
      lead,
      await signedOn('owner'),
      tablet,
      people.baker.pin,
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

/** In one sending: a test that founds a bakehouse is about something else. */
async function putInUse(administrator: Hand): Promise<Record<Place, string>> {
  const ids = await administrator.recordAll(
    Object.entries(placeSorts).map(([name, type]) => ({ kind: 'place-in-use' as const, payload: { name, type, within: null }, at: long })),
  );
  return Object.fromEntries(Object.keys(placeSorts).map((name, i) => [name, ids[i]])) as Record<Place, string>; // each of them was put in use
}

async function approve(signs: Hand, ids: BakehouseIds): Promise<{ versions: Record<FormulaKey, string>; plan: string }> {
  const formulas = formulasOf(ids);
  const pastLife = { opened: 'warn', madeHere: 'warn' } as const;
  const content = { name: 'Plan', scope: 'all', team: 'lead', pastLife, points: pointsOf(ids) };
  const approved = await signs.recordAll([
    ...formulas.map(([key, type, name, of]) => ({
      kind: 'formula-approved' as const,
      payload: { formula: ids.formulas[key], number: 1, name, type, content: of },
      at: long,
    })),
    { kind: 'plan-approved' as const, payload: { series: ids.plan, number: 1, site: null, content }, at: long },
  ]);
  const versions = Object.fromEntries(formulas.map(([key], i) => [key, approved[i]])) as Record<FormulaKey, string>; // each of them was approved
  return { versions, plan: approved.at(-1) ?? '' };
}
