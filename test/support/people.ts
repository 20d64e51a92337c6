import request, { type Test } from 'supertest';
import type { Role, SentEnvelope } from '@bakehouse/kernel';
import { kindOf, type KindName } from '@bakehouse/records';
import { createOrganisation, type CreatedOrganisation, type NewSite } from '../../apps/api/src/platform/access/index.js';
import { PinHash } from '../../apps/api/src/platform/access/pin-hash.js';
import { isWeakPin } from '../../apps/api/src/platform/access/weak-pin.js';
import { inHouse, connected } from '../../apps/api/src/platform/database/index.js';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { quickPins, type TestApp } from './app.js';
import { rawEntry, type AnyEntry, type EntryOf, type RawEntry } from './entries.js';
import { roomReading } from './payloads.js';

/** Somebody signed on with a PIN, as a program is: every request carries their token. */
export class Caller {
  constructor(
    private readonly server: TestApp['server'],
    readonly person: string,
    readonly pin: string,
    readonly token: string,
  ) {}

  get(path: string): Test {
    return this.with(request(this.server).get(`/api/v1${path}`));
  }
  post(path: string, body?: object): Test {
    return this.with(request(this.server).post(`/api/v1${path}`)).send(body);
  }
  delete(path: string): Test {
    return this.with(request(this.server).delete(`/api/v1${path}`));
  }
  /** The same entry with this person's signature, where its kind is signed. */
  async signed(entry: SentEnvelope): Promise<SentEnvelope> {
    if ((kindOf(entry)?.signed ?? null) === null) return entry;
    const { body } = await this.post('/signatures', { pin: this.pin, entry }).expect(200);
    return { ...entry, send: { signature: String(body.signature) } };
  }
  /** Records at one book's door in one sending, signed where that is asked for; gives their ids, and fails where anything is refused. */
  async recordAll(path: string, given: readonly SentEnvelope[]): Promise<string[]> {
    const entries: SentEnvelope[] = [];
    for (const one of given) entries.push(await this.signed(one));
    const { body } = await this.post(path, entries).expect(200);
    const refused = Array.isArray(body) ? body.find((result: { as: string }) => result.as !== 'recorded') : body;
    if (refused !== undefined) throw new Error(`not recorded: ${JSON.stringify(refused)}`);
    return entries.map((e) => e.id);
  }
  private with(test: Test): Test {
    return test.set('authorization', `Bearer ${this.token}`);
  }
}

let made = 0;
function nextPin(): string {
  do made += 1;
  while (isWeakPin(pinFor(made)));
  return pinFor(made);
}
const pinFor = (n: number): string => String(739_158 + n * 7_919).slice(-6);

interface Joining {
  readonly name: string;
  readonly roles: readonly Role[];
  readonly site?: string | null;
}
interface Joined {
  readonly person: string;
  readonly pin: string;
}

/** A business of its own with an administrator, through the same door as every other. */
export class House {
  private constructor(
    readonly t: TestApp,
    readonly created: CreatedOrganisation,
    public administrator: Caller,
  ) {}

  static async found(t: TestApp, sites: readonly [NewSite, ...NewSite[]] = [{ name: 'Mill Lane', zone: 'Europe/London' }]): Promise<House> {
    const pin = nextPin();
    const given = { name: `House ${made}`, sites, administrator: { name: 'Ada Min', pin } };
    const created = await connected(t.database.ownerUrl, (owner) => createOrganisation(owner, given, t.clock, new PinHash(quickPins)));
    return new House(t, created, await signOn(t, created.organisation, created.administrator, pin));
  }

  /** Signs the administrator on again, after the clock has been moved past the end of their session. */
  async again(): Promise<void> {
    this.administrator = await signOn(this.t, this.organisation, this.administrator.person, this.administrator.pin);
  }

  get organisation(): string {
    return this.created.organisation;
  }
  /** The first site. */
  get site(): string {
    return this.created.sites[0] ?? '';
  }

  /** One entry as a device sends it; what is not given is made up. The time is the clock's. */
  entry<K extends KindName>(given: EntryOf<K>): SentEnvelope {
    return this.rawEntry(given);
  }

  /** The same where the payload is wrong on purpose, or the kind is only known when the test runs. */
  rawEntry({ kind, payload, ...options }: RawEntry): SentEnvelope {
    const now = this.t.clock.now();
    return rawEntry(kind, payload, { id: uuidv7(now), at: now.toISOString(), ...options });
  }

  /** So many readings of the room at the first site, as somebody: records that speak of no food. */
  async recordReadings(count: number, by: Caller): Promise<void> {
    const entries = Array.from({ length: count }, () => this.entry({ kind: 'reading-taken', payload: roomReading(this.site) }));
    await by.post(`/sites/${this.site}/entries`, entries).expect(200);
  }

  /** Records in the organisation's book as the administrator, and fails the test where anything is refused. */
  async decide(...given: readonly AnyEntry[]): Promise<string[]> {
    return this.administrator.recordAll(
      '/organisation/entries',
      given.map((one) => this.rawEntry(one)),
    );
  }

  /** Somebody joins, is given roles (an inspector: access to a site for a day from now) and a PIN. */
  async join(name: string, roles: readonly Role[], site: string | null = null): Promise<Joined> {
    return (await this.joinAll({ one: { name, roles, site } })).one;
  }

  /** The same of several, in one sending. */
  async joinAll<K extends string>(given: Readonly<Record<K, Joining>>): Promise<Readonly<Record<K, Joined>>> {
    const joining = Object.entries<Joining>(given).map(([key, of]) => ({ key, ...of, person: uuidv7(this.t.clock.now()), pin: nextPin() }));
    await this.decide(
      ...joining.flatMap(({ person, name, roles, site }): AnyEntry[] => [
        { kind: 'person-joined', id: person, payload: {}, words: { name } },
        ...roles.map((role) => this.roleGiven(person, role, site ?? null)),
      ]),
    );
    for (const { person, pin } of joining) await this.givePin(person, pin);
    const chosen = joining.map(({ person }) => person);
    await connected(this.t.database.ownerUrl, (owner) =>
      inHouse(owner, this.organisation, () => owner.query('UPDATE credential SET set_by = person WHERE person = ANY($1)', [chosen])),
    ); // as if they had chosen it: what comes before that is a test of its own
    return Object.fromEntries(joining.map(({ key, person, pin }) => [key, { person, pin }])) as Record<K, Joined>; // its keys
  }

  private roleGiven(person: string, role: Role, site: string | null): AnyEntry {
    return role === 'inspector'
      ? this.access(person, site ?? this.site)
      : { kind: 'role-given', payload: { person, role, site, until: null } };
  }

  /** A PIN from the administrator: good for choosing one's own. */
  async givePin(person: string, pin: string): Promise<void> {
    await this.administrator.post(`/people/${person}/pin`, { pin, currentPin: this.administrator.pin }).expect(204);
  }

  /** The same, signed on. */
  async signedOn(name: string, roles: readonly Role[], site: string | null = null): Promise<Caller> {
    const { person, pin } = await this.join(name, roles, site);
    return signOn(this.t, this.organisation, person, pin);
  }

  private access(person: string, site: string): EntryOf<'access-given'> {
    const now = this.t.clock.now();
    const day = (days: number): string => new Date(now.getTime() + days * 86_400_000).toISOString();
    return { kind: 'access-given', payload: { person, sites: [site], from: day(-30).slice(0, 10), until: null, expires: day(1) } };
  }
}

/** A tablet of a house's first site, enrolled with a code as anybody would. */
export interface Tablet {
  readonly id: string;
  readonly token: string;
  get(path: string): Test;
  post(path: string, body?: object): Test;
  /** Signs on by a tapped name, or with a PIN. */
  tap(person: string): Promise<Caller>;
  signOn(person: string, pin: string): Promise<Caller>;
}

export async function enrolledTablet(house: House, name: string): Promise<Tablet> {
  const { server } = house.t;
  const code = await house.administrator
    .post('/devices/enrolment-codes', { site: house.site, currentPin: house.administrator.pin })
    .expect(201);
  const { body } = await request(server).post('/api/v1/devices/enrol').send({ code: code.body.codeWithOrganisation, name }).expect(201);
  const token = String(body.token);
  const post = (path: string, sent?: object): Test => request(server).post(`/api/v1${path}`).set('x-device-token', token).send(sent);
  const signedOnBy = async (person: string, pin: string, test: Test): Promise<Caller> => {
    const { body: signed } = await test.expect(200);
    return new Caller(server, person, pin, String(signed.token));
  };
  return {
    id: String(body.device.id),
    token,
    post,
    get: (path) => request(server).get(`/api/v1${path}`).set('x-device-token', token),
    tap: (person) => signedOnBy(person, '', post('/sign-on/tap', { person })),
    signOn: (person, pin) => signedOnBy(person, pin, post('/sign-on', { person, pin })),
  };
}

/** Signs somebody on with a PIN. */
export async function signOn(t: TestApp, organisation: string, person: string, pin: string): Promise<Caller> {
  const { body } = await request(t.server).post('/api/v1/sign-on').send({ organisation, person, pin }).expect(200);
  return new Caller(t.server, person, pin, String(body.token));
}

/** Somebody with one role, signed on, in a house of their own. */
export async function signedOn(t: TestApp, role: Role): Promise<Caller & { readonly house: House }> {
  const house = await House.found(t);
  return Object.assign(await house.signedOn('Bea Kerr', [role]), { house });
}
