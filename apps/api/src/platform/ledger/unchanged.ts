import { createHash } from 'node:crypto';
import { siteDay } from '@bakehouse/kernel';
import { projectionVersion } from '@bakehouse/records';
import { Inject, Injectable } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { CLOCK, type Clock } from '../clock/index.js';
import { Tenancy } from '../database/index.js';
import { Books } from './books.js';
import { bookSizes } from './sizes.query.js';

/**
 * What only the passing of time changes in an answer shows at the latest after so long: a record that a fast clock dated ahead, a specification that begins
 * to hold. A new day of the site shows at once. Where a screen says more exactly when something is due, it works that out itself from the rows.
 */
const timeMs = 5 * 60_000;

/** Which state of the records an answer is of, so that somebody who has it already is told so before it is worked out again. */
@Injectable()
export class Unchanged {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  /**
   * Does the work, unless the asker holds its result: then nothing is answered but 304 and as of when that still holds. An answer depends on the records
   * of the whole house, the day, and `of`: what was asked for and what the asker may see. The tag is taken before the work: at worst it is older than the
   * answer. Work of one tag may be shared between those who ask at once.
   */
  async unless<T>(
    request: FastifyRequest,
    reply: FastifyReply,
    organisation: string,
    of: Iterable<string>,
    work: (tag: string) => Promise<T>,
  ): Promise<T | undefined> {
    const now = this.clock.now();
    const tag = await this.tag(organisation, [...of].sort(), now);
    void reply.header('etag', tag).header('x-as-of', now.toISOString());
    if (!holds(request.headers['if-none-match'], tag)) return work(tag);
    void reply.code(304);
    return undefined;
  }

  private async tag(organisation: string, asked: readonly string[], now: Date): Promise<string> {
    const books = await this.books.all(organisation);
    const sizes = await this.tenancy.reading(organisation, (client) => bookSizes(client, organisation));
    const days = books.map((b) => siteDay(now.toISOString(), b));
    const all = [organisation, projectionVersion, sizes, Math.floor(now.getTime() / timeMs), days, asked];
    return `W/"${createHash('sha256').update(JSON.stringify(all)).digest('base64url').slice(0, 27)}"`;
  }
}

/** Compared weakly, as RFC 9110 §13.1.2 has it: a proxy may have packed the answer in another way. */
const holds = (header: string | undefined, tag: string): boolean =>
  (header ?? '').split(',').some((one) => one.trim().replace(/^W\//, '') === tag.replace(/^W\//, ''));
