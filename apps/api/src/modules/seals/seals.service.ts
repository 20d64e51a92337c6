import type { SealBundle, SealKeyView, SealView } from '@bakehouse/contracts';
import { followKeys, formatFor, rootOf, toHex } from '@bakehouse/ledger';
import { Inject, Injectable } from '@nestjs/common';
import { CLOCK, wallTime, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { originOf, sha256, type BookInfo } from '../../platform/ledger/index.js';
import { keysToSeal, keysToShow, signerOf, type BookKeys } from './book-keys.js';
import { bookInBundle, shownFields } from './book-bundle.js';
import { hashesIn } from './block-tree.js';
import { humanCode } from './human-code.js';
import { changesSay, keySays, sealSays } from './says.js';
import { SealKey } from './seal-key.js';
import { sealNow, signed } from './seal-now.js';
import { headOf, keepSeal, leavesOf, placesBetween, sealFrom, sealOf, type SealRow } from './seals.query.js';

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
    const seal = await this.sealed(book);
    return this.viewOf(book, seal, seal.keys);
  }

  /**
   * The seal of a book when it had so many records; made where it has never been, but for a time in which another key made them: then it is the first one
   * that holds those records. Throws where the book never had as many.
   */
  async ofSize(book: BookInfo, size: number): Promise<SealView> {
    const { seal, keys } = await this.tenancy.inOrganisation(book.organisation, async (client) => {
      const { seed, ...of } = await keysToSeal(client, book, this.key);
      const found = await sealOf(client, book, size);
      if (found) return { seal: found, keys: of };
      if (size > ((await headOf(client, book))?.size ?? 0)) throw new ProblemException('not-found');
      if (size < (followKeys(of.statements, of.verifierKey).turns.at(-1)?.least ?? 0))
        return { seal: await sealFrom(client, book, size), keys: of };
      const leaves = await leavesOf(client, book, size);
      const made = signed(book, seed, { size, root: rootOf(hashesIn(leaves), sha256) });
      return { seal: await keepSeal(client, book, { ...made, at: this.at() }), keys: of };
    });
    return this.viewOf(book, seal, keys);
  }

  /** A seal that was made before, or a problem. */
  async made(book: BookInfo, size: number): Promise<SealView> {
    const { seal, keys } = await this.tenancy.reading(book.organisation, async (client) => ({
      seal: await sealOf(client, book, size),
      keys: await keysToShow(client, book, this.key),
    }));
    return this.viewOf(book, seal, keys);
  }

  /** The key that a book's seals are made with, whether or not there is such a book. */
  async keyOf(book: string): Promise<SealKeyView> {
    const origin = originOf(book);
    return { book, origin, verifierKey: await this.key.verifierKey(origin), says: [...keySays] };
  }

  /**
   * What was recorded at a site in a period (by when it was received) under the latest seal, each record with its proof; of the organisation's book the
   * seal alone, since its records are about people, formulas and other sites. Throws where that is more than fits.
   */
  async bundle(site: BookInfo, house: BookInfo, from: string, until: string): Promise<SealBundle> {
    const [seal, houseSeal] = [await this.sealed(site), await this.sealed(house)];
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
      return { format: formatFor(books), books, from, until, says: [...sealSays, ...changesSay(seal.keys), ...keySays] };
    });
  }

  /** The seal as it stands and its keys, as of before anything else is read: a change of the key that comes between is not in it. */
  private sealed(book: BookInfo): Promise<SealRow & { readonly keys: BookKeys }> {
    return this.tenancy.inOrganisation(book.organisation, (client) => sealNow(client, book, this.key, this.at()));
  }

  private at(): string {
    return this.clock.now().toISOString();
  }

  private viewOf(book: BookInfo, seal: SealRow | undefined, keys: BookKeys): SealView {
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
      verifierKey: signerOf(note, keys),
      says: [...sealSays, ...changesSay(keys)],
    };
  }
}
