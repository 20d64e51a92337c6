import { randomUUID } from 'node:crypto';
import type { Role } from '@bakehouse/kernel';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import type { TestApp } from './app.js';
import { Bakehouse } from './bakehouse.js';
import { everyKind, type Sample } from './every-kind.js';
import type { Known } from './from-schema.js';
import type { Caller } from './people.js';

export const roles: readonly Role[] = ['viewer', 'baker', 'manager', 'food-safety-lead', 'administrator', 'inspector'];

/** Who calls: what a request of theirs carries, and the PIN they know. */
export interface Calls {
  readonly name: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly pin: string;
}

/** A bakehouse with records of every kind, drafts, and somebody in every role. */
export class FullHouse {
  private constructor(
    readonly b: Bakehouse,
    readonly samples: () => Sample[],
    private readonly people: Map<string, Caller>,
    readonly drafts: { readonly formula: string; readonly plan: string },
  ) {}

  static async found(t: TestApp, name: string): Promise<FullHouse> {
    const b = await Bakehouse.found(t, { name });
    const samples = await everyKind(b);
    const people = new Map<string, Caller>();
    for (const role of roles) people.set(role, await b.house.signedOn(`The ${role}`, [role]));
    const everybody = await b.house.signedOn('Ev Rybody', ['baker', 'manager', 'food-safety-lead', 'administrator']);
    people.set('everybody', everybody);
    const [formula, plan] = [uuidv7(t.clock.now()), uuidv7(t.clock.now())];
    await everybody.post('/formulas/drafts', { id: formula, formula: b.ids.formulas.white }).expect(200);
    await everybody.post('/plans/drafts', { id: plan, series: b.ids.plan }).expect(200);
    return new FullHouse(b, samples, people, { formula, plan });
  }

  /** Somebody in a role, or `everybody`, who has them all but the inspector's. */
  caller(role: string): Caller {
    const one = this.people.get(role);
    if (one === undefined) throw new Error(`nobody is ${role}`);
    return one;
  }

  /** Everybody who may call: each role, a tablet at which somebody is signed on, one at which nobody is, and nobody. */
  callers(): Calls[] {
    const device = { 'x-device-token': this.b.tablet.token };
    return [
      ...[...this.people].map(([name, { token, pin }]) => ({ name, headers: { authorization: `Bearer ${token}` }, pin })),
      { name: 'baker at the tablet', headers: { ...device, authorization: `Bearer ${this.b.baker.caller.token}` }, pin: '' },
      { name: 'the tablet', headers: device, pin: '' },
      { name: 'nobody', headers: {}, pin: '' },
    ];
  }

  /** Whose session was ended is replaced by somebody new; wrong PINs are forgotten, or nobody could sign anything while the clock stands still. */
  async again(): Promise<void> {
    await connected(this.b.t.database.ownerUrl, (owner) =>
      owner.query('DELETE FROM guess_count WHERE organisation = $1', [this.b.house.organisation]),
    );
    for (const [role, one] of this.people) {
      if ((await one.get('/me')).status === 200) continue;
      const held: readonly Role[] =
        role === 'everybody' ? ['baker', 'manager', 'food-safety-lead', 'administrator'] : roles.filter((r) => r === role);
      this.people.set(role, await this.b.house.signedOn(`The next ${role} ${randomUUID().slice(0, 4)}`, held));
    }
  }

  /** Ids of this house, by the names of the fields that take them. */
  known(): Known {
    const { b } = this;
    const ids = new Map<string, Set<string>>();
    const add = (name: string, ...more: readonly string[]): void => {
      ids.set(name, new Set([...(ids.get(name) ?? []), ...more]));
    };
    const walk = (name: string, value: unknown): void => {
      if (typeof value === 'string' && isId(value)) add(name, value);
      else if (Array.isArray(value)) value.forEach((one) => walk(name, one));
      else if (typeof value === 'object' && value !== null) Object.entries(value).forEach(([key, one]) => walk(key, one));
    };
    for (const sample of this.samples()) walk('', sample.payload);
    add('site', b.site);
    add('sites', b.site);
    add('book', b.site, b.house.organisation);
    add('organisation', b.house.organisation);
    add('person', ...[...this.people.values()].map((p) => p.person));
    add('device', b.tablet.id);
    add('plan', b.ids.plan);
    add('series', b.ids.plan);
    add('formula', ...Object.values(b.ids.formulas));
    add('mixer', b.place('mixer'));
    add('draft', this.drafts.formula, this.drafts.plan);
    add('suspect', ...(ids.get('lot') ?? []));
    add('words', 'L-', 'flour', 'B-1');
    return new Map([...ids].map(([name, of]) => [name, [...of]]));
  }
}

const isId = (text: string): boolean => /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(text);
