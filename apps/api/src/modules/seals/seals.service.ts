import type { SealBundle, SealKeyView, SealView } from '@bakehouse/contracts';
import { formatFor, rootOf, toHex } from '@bakehouse/ledger';
import { Inject, Injectable } from '@nestjs/common';
import { CLOCK, wallTime, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { originOf, sha256, type BookInfo } from '../../platform/ledger/index.js';
import { bookInBundle, shownFields } from './book-bundle.js';
import { hashesIn } from './block-tree.js';
import { humanCode } from './human-code.js';
import { keySays, sealSays } from './says.js';
import { SealKey } from './seal-key.js';
import { sealNow, signed } from './seal-now.js';
import { headOf, keepSeal, leavesOf, placesBetween, sealOf, type SealRow } from './seals.query.js';

/** A larger bundle than this is asked for in parts: its proofs alone take half a kilobyte an entry. */
export const maxInBundle = 5000;

/** Signs the heads of books, once for each size, and shows what was sealed. */
@Injectable()
export class SealsService {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly key: SealKey,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  /** The seal of the book as it stands; made where the head has moved on since the last. */
  async latest(book: BookInfo): Promise<SealView> {
    const seal = await this.tenancy.inOrganisation(book.organisation, (client) => sealNow(client, book, this.key, this.at()));
    return this.viewOf(book, seal);
  }

  /** The seal of a book when it had so many records; made where it has never been. Throws where the book never had as many. */
  async ofSize(book: BookInfo, size: number): Promise<SealView> {
    const seal = await this.tenancy.inOrganisation(book.organisation, async (client) => {
      const found = await sealOf(client, book, size);
      if (found) return found;
      if (size > ((await headOf(client, book))?.size ?? 0)) throw new ProblemException('not-found');
      const leaves = await leavesOf(client, book, size);
      const made = await signed(book, this.key, { size, root: rootOf(hashesIn(leaves), sha256) });
      return keepSeal(client, book, { ...made, at: this.at() });
    });
    return this.viewOf(book, seal);
  }

  /** A seal that was made before, or a problem. */
  async made(book: BookInfo, size: number): Promise<SealView> {
    return this.viewOf(book, await this.tenancy.reading(book.organisation, (client) => sealOf(client, book, size)));
  }

  async keyOf(book: string): Promise<SealKeyView> {
    const origin = originOf(book);
    return { book, origin, verifierKey: await this.key.verifierKey(origin), says: [...keySays] };
  }

  /**
   * What was recorded at a site in a period (by when it was received) under the latest seal, each record with its proof; of the organisation's book the
   * seal alone, since its records are about people, formulas and other sites. Throws where that is more than fits.
   */
  async bundle(site: BookInfo, house: BookInfo, from: string, until: string): Promise<SealBundle> {
    const [seal, houseSeal] = [await this.latest(site), await this.latest(house)];
    return this.tenancy.reading(site.organisation, async (client) => {
      const { first, count } = await placesBetween(client, site, from, until);
      const sealed = Math.max(0, Math.min(count, seal.size - first));
      if (sealed > maxInBundle)
        throw new ProblemException({
          problem: 'unacceptable-value',
          field: 'to',
          acceptable: `a shorter period, with at most ${maxInBundle} records`,
        });
      const books = [
        await bookInBundle(client, site, seal, { first, count: sealed, fields: shownFields }),
        await bookInBundle(client, house, houseSeal, { first: 0, count: 0, fields: [] }),
      ];
      return { format: formatFor(books), books, from, until, says: [...sealSays, ...keySays] };
    });
  }

  private at(): string {
    return this.clock.now().toISOString();
  }

  private async viewOf(book: BookInfo, seal: SealRow | undefined): Promise<SealView> {
    if (!seal) throw new ProblemException('not-found');
    const { size, root, note, at } = seal;
    const [origin, code] = [originOf(book.id), humanCode(root)];
    return {
      book: book.id,
      name: book.name,
      origin,
      size,
      rootHex: toHex(root),
      code,
      at,
      line: `sealed ${wallTime(at, book.zone)}, code ${code}`,
      note,
      verifierKey: await this.key.verifierKey(origin),
      says: [...sealSays],
    };
  }
}
