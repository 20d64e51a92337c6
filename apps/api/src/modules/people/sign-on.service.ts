import type { newOwnPin, newSignOn, PeopleToSignOn, SignedOn } from '@bakehouse/contracts';
import { Inject, Injectable } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type * as z from 'zod';
import {
  isThisMachine,
  Pins,
  sessionCookie,
  Sessions,
  setCookie,
  type PresentedToken,
  type Strength,
} from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { OrganisationChoice, type Origin } from './organisation-choice.js';
import { PinChanges } from './pin-change.service.js';
import { organisationName, peopleToSignOn } from './sign-on.query.js';

const nobody = '00000000-0000-0000-0000-000000000000';
const plain = (name: string): string => name.normalize('NFC').trim().toLowerCase();
const sameName = (a: string, b: string): boolean => plain(a) === plain(b);

@Injectable()
export class SignOnService {
  constructor(
    private readonly asked: OrganisationChoice,
    private readonly pins: Pins,
    private readonly sessions: Sessions,
    private readonly changes: PinChanges,
    private readonly tenancy: Tenancy,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  async people(request: FastifyRequest, named?: string): Promise<PeopleToSignOn> {
    const { organisation, device, from } = await this.asked.of(request, named);
    return this.tenancy.reading(organisation, async (client) => {
      const all = await peopleToSignOn(client, organisation, device?.site ?? null, this.now());
      const atHome = device !== undefined || isThisMachine(request.ip);
      const ids = all.map((p) => p.id);
      const known = atHome ? new Set(ids) : await this.pins.knownFrom(client, organisation, ids, from);
      return {
        organisation: { id: organisation, name: (await organisationName(client, organisation)) ?? '' },
        device: device ? { id: device.id, name: device.name, site: device.site } : null,
        allShown: known.size === all.length,
        people: all.filter((p) => known.has(p.id)),
      };
    });
  }

  async withPin(
    { pin, organisation: named, ...who }: z.infer<typeof newSignOn>,
    request: FastifyRequest,
    reply: FastifyReply,
  ): Promise<SignedOn> {
    const asked = await this.asked.of(request, named);
    const person = await this.personOf(asked, who);
    await this.pins.prove({ organisation: asked.organisation, person, pin, from: asked.from });
    return this.open(asked, person, 'pin', request, reply);
  }

  /** The same after the PIN is changed for one that the person chooses. */
  async withOwnPin(
    { pin, newPin, organisation: named, ...who }: z.infer<typeof newOwnPin>,
    request: FastifyRequest,
    reply: FastifyReply,
  ): Promise<SignedOn> {
    const asked = await this.asked.of(request, named);
    const { organisation, from } = asked;
    const person = await this.personOf(asked, who);
    await this.pins.prove({ organisation, person, pin, from }, { given: true });
    if (newPin === pin)
      throw new ProblemException({ problem: 'unacceptable-value', field: 'newPin', acceptable: 'another PIN than the one that you have' });
    await this.changes.make({ organisation, person, pin: newPin, by: person, from, but: null });
    return this.open(asked, person, 'pin', request, reply);
  }

  async byTap(person: string, request: FastifyRequest, reply: FastifyReply): Promise<SignedOn> {
    const asked = await this.asked.of(request);
    const { device } = asked;
    if (!device) throw new ProblemException('device-not-enrolled');
    const there = await this.tenancy.reading(asked.organisation, (client) =>
      peopleToSignOn(client, asked.organisation, device.site, this.now()),
    );
    if (!there.some((p) => p.id === person && p.tap)) throw new ProblemException({ problem: 'unknown-person', field: 'person' });
    return this.open(asked, person, 'tapped', request, reply);
  }

  off(token: PresentedToken | undefined): Promise<void> {
    return token ? this.sessions.signOff(token) : Promise.resolve();
  }

  private now(): string {
    return this.clock.now().toISOString();
  }

  /** Who is meant; a name that nobody has, or several, is nobody: answered like a wrong PIN, as slowly. */
  private async personOf({ organisation }: Origin, { person, name }: Pick<z.infer<typeof newSignOn>, 'person' | 'name'>): Promise<string> {
    if (person !== undefined) return person;
    const all = await this.tenancy.reading(organisation, (client) => peopleToSignOn(client, organisation, null, this.now()));
    const [one, ...more] = all.filter((p) => p.name !== null && sameName(p.name, name ?? ''));
    return one && more.length === 0 ? one.id : nobody;
  }

  private async open(
    { organisation, device }: Origin,
    person: string,
    strength: Strength,
    request: FastifyRequest,
    reply: FastifyReply,
  ): Promise<SignedOn> {
    const opened = await this.sessions.open({ organisation, person, device: device?.id ?? null, strength, address: request.ip });
    const seconds = Math.floor((Date.parse(opened.expiresAt) - this.clock.now().getTime()) / 1000);
    setCookie(request, reply, sessionCookie, opened.token, seconds);
    const { name, ...session } = opened;
    return { ...session, strength, person: { id: person, name } };
  }
}
