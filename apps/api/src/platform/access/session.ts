import { type Permission } from '@bakehouse/kernel';
import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import { ProblemException } from '../http/problem.js';
import type { Asker } from '../ledger/types.js';
import { permissionsFrom, type RoleHeld, type Strength } from './permissions.js';

/** What is known of a session when a request comes in, as of that moment. */
export interface SessionFacts {
  readonly organisation: string;
  readonly person: string;
  readonly name: string | null;
  readonly session: string;
  readonly device: string | null;
  readonly strength: Strength;
  readonly expiresAt: string;
  readonly held: readonly RoleHeld[];
  /** Every site of the organisation. */
  readonly allSites: readonly string[];
  /** What an inspector was given access to; empty for everybody else. */
  readonly inspections: readonly InspectionHeld[];
}

/** One access of an inspector's that holds now: to these sites, for records of these days (until null: up to today). */
export interface InspectionHeld {
  readonly sites: readonly string[];
  readonly from: string;
  readonly until: string | null;
  readonly expires: string;
}

/** Who asks, and what they may do where. Made anew for each request; a role taken away counts at the next. */
export class SessionContext {
  readonly organisation: string;
  readonly person: string;
  readonly name: string | null;
  readonly session: string;
  readonly device: string | null;
  readonly strength: Strength;
  readonly expiresAt: string;
  readonly inspections: readonly InspectionHeld[];
  private readonly known = new Map<string | null, ReadonlySet<Permission>>();

  constructor(private readonly facts: SessionFacts) {
    this.organisation = facts.organisation;
    this.person = facts.person;
    this.name = facts.name;
    this.session = facts.session;
    this.device = facts.device;
    this.strength = facts.strength;
    this.expiresAt = facts.expiresAt;
    this.inspections = facts.inspections;
  }

  /** The sites where this person may do anything. */
  get sites(): readonly string[] {
    return this.facts.allSites.filter((site) => this.permissionsAt(site).size > 0);
  }

  /** What may be done at a site, or with what belongs to the organisation (null). Nothing at a site of another organisation. */
  permissionsAt(site: string | null): ReadonlySet<Permission> {
    const permissions = this.known.get(site) ?? this.permissionsWith(this.strength, site);
    this.known.set(site, permissions);
    return permissions;
  }

  askerAt(site: string | null): Asker {
    return {
      person: this.person,
      session: this.session,
      device: this.device,
      permissions: this.permissionsAt(site),
      whenSigned: this.permissionsWith('pin', site),
    };
  }

  /**
   * Goes on only where one of these may be done there.
   * @throws ProblemException that tells a missing PIN, an unknown site and a missing role apart
   */
  require(any: Permission | readonly Permission[], site: string | null): void {
    const wanted = [any].flat();
    if (wanted.some((p) => this.permissionsAt(site).has(p))) return;
    if (site !== null && !this.facts.allSites.includes(site)) throw new ProblemException('unknown-site');
    const withPin = this.permissionsWith('pin', site);
    throw new ProblemException(wanted.some((p) => withPin.has(p)) ? 'pin-needed' : 'not-permitted');
  }

  /**
   * Goes on only where this may be signed by this person with their PIN, at a site or for the whole organisation.
   * @throws ProblemException
   */
  requireWhenSigned(permission: Permission): void {
    if (![null, ...this.facts.allSites].some((site) => this.permissionsWith('pin', site).has(permission)))
      throw new ProblemException('not-permitted');
  }

  private permissionsWith(strength: Strength, site: string | null): ReadonlySet<Permission> {
    return site === null || this.facts.allSites.includes(site) ? permissionsFrom(this.facts.held, site, strength) : new Set();
  }
}

const sessions = new WeakMap<object, SessionContext>();

export function keepSession(request: object, session: SessionContext): void {
  sessions.set(request, session);
}

/** The session of a request that passed the guard, if its route asked for one. */
export const sessionOf = (request: object): SessionContext | undefined => sessions.get(request);

/** Hands a route its session. */
export const CurrentSession = createParamDecorator((_: unknown, context: ExecutionContext): SessionContext => {
  const session = sessionOf(context.switchToHttp().getRequest<object>());
  if (!session) throw new Error('this route declares no access that has a session');
  return session;
});
