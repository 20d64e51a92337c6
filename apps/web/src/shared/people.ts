import { ask, asking, onlyInNameOf, type Reply, type Token, type Tokens, type WireProblem } from '@bakehouse/api-client';
import { me, peopleToSignOn, signedOn, type Me, type PeopleToSignOn } from '@bakehouse/contracts';
import { permissionsOf, type Permission } from '@bakehouse/kernel';
import type { Kept, NightSite } from '@bakehouse/offline';
import * as z from 'zod';

/** The person who is signed on at the device, as far as it knows. */
export interface Person {
  readonly id: string;
  readonly name: string;
  readonly permissions: readonly Permission[];
  /** The same with their PIN, which is asked for where a tapped name is not enough. */
  readonly withPin: readonly Permission[];
}

const names = {
  people: 'people to tap',
  house: 'house',
  person: 'person here',
  me: (id: string) => `me ${id}`,
  site: 'site',
  chosen: 'site chosen',
} as const;
const keptPerson = z.object({ id: z.string(), name: z.string() });
const keptChoice = z.object({ person: z.string(), site: z.string() });
export const keptSite = z.object({ id: z.string(), organisation: z.string(), name: z.string(), zone: z.string(), dayStarts: z.string() });

export type SignedOnHere =
  | {
      readonly ok: true;
      readonly person: Person;
      /** Where they may work, the site that they work at first. */
      readonly sites: readonly NightSite[];
      /** They may work at several and have not said at which. */
      readonly mustChoose: boolean;
    }
  | { readonly ok: false; readonly problem: WireProblem };

const unreachable: WireProblem = {
  problem: 'unreachable',
  title: 'The bakehouse’s computer cannot be reached',
  detail: 'Tap a name on a tablet that is enrolled here, or try again when the network is back.',
};

/** Somebody by the name that they typed, where it is not shown. */
export interface Named {
  readonly name: string;
}

/** Who may be tapped, who is here, and the tokens that go with them. What a tablet learnt on line it still knows off line. */
export class People implements Tokens {
  private readonly tokens = new Map<string, string>();
  /** Whom the browser's cookie stands for, where that is known. */
  private byCookie: string | undefined;
  private list: PeopleToSignOn | null = null;
  /** Whose PIN was given here, for the token that is held for them. */
  private readonly proven = new Set<string>();

  /** Several houses use the service, and it is not known here which one is meant. */
  whichHouse = false;

  constructor(
    private readonly kept: Kept,
    /** The house that the page's address names. */
    private readonly house: string | null = null,
  ) {}

  get known(): PeopleToSignOn | null {
    return this.list;
  }

  /** The site that this enrolled tablet stands at, as it was met last; null on any other device. */
  async siteHere(): Promise<NightSite | null> {
    const site = await this.kept.get(names.site, keptSite);
    return site !== null && site.id === this.list?.device?.site ? site : null;
  }

  /** The names to tap: from the service, or as last seen. */
  async load(): Promise<PeopleToSignOn | null> {
    if (this.house !== null) await this.kept.put(names.house, this.house);
    const organisation = await this.kept.get(names.house, z.uuid());
    const query = organisation === null ? {} : { organisation };
    const ask = asking({ timeoutMs: 6_000 });
    const named = await ask('get', '/sign-on/people', peopleToSignOn, { params: { query } });
    // a house that was named once and is not there any more is not asked for again
    const gone = organisation !== null && named.as === 'problem' && named.problem.problem === 'which-organisation';
    if (gone) await this.kept.put(names.house, null);
    const reply = gone ? await ask('get', '/sign-on/people', peopleToSignOn, { params: { query: {} } }) : named;
    this.whichHouse = reply.as === 'problem' && reply.problem.problem === 'which-organisation';
    if (reply.as === 'ok') await this.kept.put(names.people, reply.value);
    // off line the names are those that were seen last; of a house that nobody knows, none
    this.list = reply.as === 'ok' ? reply.value : this.whichHouse ? null : await this.kept.get(names.people, peopleToSignOn);
    return this.list;
  }

  /** The person who was signed on before this page was loaded, if the service or the tablet still lets them. */
  async resume(): Promise<SignedOnHere | undefined> {
    const last = await this.kept.get(names.person, keptPerson);
    if (!last) return undefined;
    const reply = await ask('get', '/me', me);
    if (reply.as === 'ok' && reply.value.person.id === last.id) {
      this.byCookie = last.id;
      if (reply.value.strength === 'pin') this.proven.add(last.id);
      return this.arrived(reply.value);
    }
    if (this.mayTap(last.id)) return this.tap(last.id);
    return undefined;
  }

  /** An answer to what was asked before somebody left signs nobody on again. */
  private timesLeft = 0;

  /** What somebody who is signed on may do by now; undefined where the service does not say. */
  async again(id: string): Promise<SignedOnHere | undefined> {
    const before = this.timesLeft;
    const isHere = (): boolean => this.timesLeft === before;
    const reply = await asking({ as: onlyInNameOf(this, id) })('get', '/me', me);
    if (reply.as !== 'ok' || reply.value.person.id !== id || !isHere()) return undefined;
    const now = await this.arrived(reply.value, isHere);
    return isHere() ? now : undefined;
  }

  /** A tapped name. Off line the tablet takes its word for it: what is typed is sent in that name once the service is there. */
  async tap(id: string): Promise<SignedOnHere> {
    const reply = await ask('post', '/sign-on/tap', signedOn, { body: { person: id } });
    return reply.as === 'unreachable' ? this.fromMemory(id) : this.opened(id, reply);
  }

  async withPin(who: string | Named, pin: string): Promise<SignedOnHere> {
    return this.provenBy(await ask('post', '/sign-on', signedOn, { body: this.claim(who, pin) }));
  }

  /** The same with a new PIN in place of the one that they have. */
  async withOwnPin(who: string | Named, pin: string, newPin: string): Promise<SignedOnHere> {
    return this.provenBy(await ask('post', '/sign-on/own-pin', signedOn, { body: { ...this.claim(who, pin), newPin } }));
  }

  private claim(who: string | Named, pin: string): ({ person: string } | Named) & { pin: string; organisation?: string } {
    return { ...(typeof who === 'string' ? { person: who } : who), pin, ...(this.list ? { organisation: this.list.organisation.id } : {}) };
  }

  private async provenBy(reply: Reply<z.infer<typeof signedOn>>): Promise<SignedOnHere> {
    if (reply.as === 'unreachable') return { ok: false, problem: unreachable };
    if (reply.as === 'problem') return { ok: false, problem: reply.problem };
    const { id } = reply.value.person;
    const answer = await this.opened(id, reply);
    if (answer.ok) this.proven.add(id);
    return answer;
  }

  /** Whether what is asked in somebody's name now goes with their PIN behind it. */
  isProven(id: string): boolean {
    return this.proven.has(id);
  }

  async leave(): Promise<void> {
    this.timesLeft += 1;
    await this.kept.put(names.person, null);
    await this.kept.put(names.chosen, null);
  }

  /** At which of their sites somebody works, until they leave. */
  async choose(person: string, site: string): Promise<SignedOnHere> {
    await this.kept.put(names.chosen, { person, site });
    return this.fromMemory(person);
  }

  /** A token to send in somebody's name; null to go by the cookie; undefined where nobody is signed on for them. */
  async tokenFor(id: string): Promise<Token> {
    const held = this.tokens.get(id);
    if (held !== undefined) return held;
    if (this.byCookie === id) return null;
    if (!this.mayTap(id)) return undefined;
    const reply = await ask('post', '/sign-on/tap', signedOn, { body: { person: id } });
    if (reply.as === 'unreachable') throw new Error('not reached');
    if (reply.as === 'problem') return undefined;
    this.tookToken(id, reply.value.token);
    return reply.value.token;
  }

  tokenFailed(id: string): void {
    this.tokens.delete(id);
    this.proven.delete(id);
    if (this.byCookie === id) this.byCookie = undefined;
  }

  private mayTap(id: string): boolean {
    return this.list?.device !== null && this.list?.people.some((p) => p.id === id && p.tap) === true;
  }

  private tookToken(id: string, token: string): void {
    this.tokens.set(id, token);
    this.proven.delete(id);
    this.byCookie = undefined; // the cookie is now of the person who was tapped last: only tokens say who asks
  }

  private async opened(id: string, reply: Exclude<Reply<z.infer<typeof signedOn>>, { as: 'unreachable' }>): Promise<SignedOnHere> {
    if (reply.as === 'problem') return { ok: false, problem: reply.problem };
    const { token } = reply.value;
    this.tookToken(id, token);
    const who = await asking({ as: (once) => once(token) })('get', '/me', me);
    return who.as === 'ok' ? this.arrived(who.value) : this.fromMemory(id);
  }

  private async arrived(who: Me, isHere = () => true): Promise<SignedOnHere> {
    await this.kept.put(names.me(who.person.id), who);
    return this.here(who, isHere);
  }

  private async fromMemory(id: string): Promise<SignedOnHere> {
    const who = await this.kept.get(names.me(id), me);
    if (who) return this.here(who);
    const site = await this.kept.get(names.site, keptSite);
    const tapped = this.list?.people.find((p) => p.id === id && p.tap);
    if (!site || !tapped) return { ok: false, problem: unreachable };
    await this.kept.put(names.person, { id, name: tapped.name ?? '' });
    const unknown = permissionsOf.baker; // what is sent later is judged by what they may
    return { ok: true, person: { id, name: tapped.name ?? '', permissions: unknown, withPin: unknown }, sites: [site], mustChoose: false };
  }

  private async here(who: Me, isHere = () => true): Promise<SignedOnHere> {
    const sites = who.sites.map(({ id, name, zone, dayStarts }) => ({ id, name, zone, dayStarts, organisation: who.organisation.id }));
    const own = sites.filter((s) => this.list?.device === null || this.list?.device.site === s.id || !this.list);
    const choice = await this.kept.get(names.chosen, keptChoice);
    const chosen = choice?.person === who.person.id ? own.find((s) => s.id === choice.site) : undefined;
    const mustChoose = own.length > 1 && !chosen;
    const site = chosen ?? own[0];
    if (site && !mustChoose) await this.kept.put(names.site, site);
    if (isHere()) await this.kept.put(names.person, { id: who.person.id, name: who.person.name ?? '' });
    const at = who.sites.find((s) => s.id === site?.id);
    return {
      ok: true,
      person: { id: who.person.id, name: who.person.name ?? '', permissions: (at ?? who).permissions, withPin: (at ?? who).withPin },
      sites: site ? [site, ...own.filter((s) => s !== site)] : [],
      mustChoose,
    };
  }
}
