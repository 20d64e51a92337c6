import type { SealBundle, SealKeyView, SealView } from '@bakehouse/contracts';
import { checkpointText, Frontier, rootOf, signNote, toBase64, toHex } from '@bakehouse/ledger';
import { Inject, Injectable } from '@nestjs/common';
import { CLOCK, wallTime, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { originOf, sha256, type BookInfo } from '../../platform/ledger/index.js';
import { BlockTree } from './block-tree.js';
import { humanCode } from './human-code.js';
import { keySays, sealSays } from './says.js';
import { SealKey } from './seal-key.js';
import { bodiesFrom, headOf, keepSeal, leavesOf, placesBetween, sealOf, sealsBefore, type BodyRow, type SealRow } from './seals.query.js';

/** A larger bundle than this is asked for in parts: its proofs alone take half a kilobyte an entry. */
export const maxInBundle = 5000;
const earlierInBundle = 20;

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
    const seal = await this.tenancy.inOrganisation(book.organisation, async (client) => {
      const head = await headOf(client, book);
      if (!head) throw new ProblemException('unknown-site');
      return (
        (await sealOf(client, book, head.size)) ??
        keepSeal(client, book, await this.signed(book, head.size, Frontier.from(head.size, head.frontier, sha256).root()))
      );
    });
    return this.viewOf(book, seal);
  }

  /** The seal of a book when it had so many records; made where it has never been. Throws where the book never had as many. */
  async ofSize(book: BookInfo, size: number): Promise<SealView> {
    const seal = await this.tenancy.inOrganisation(book.organisation, async (client) => {
      const found = await sealOf(client, book, size);
      if (found) return found;
      if (size > ((await headOf(client, book))?.size ?? 0)) throw new ProblemException('not-found');
      const leaves = await leavesOf(client, book, size);
      return keepSeal(client, book, await this.signed(book, size, rootOf(hashesIn(leaves), sha256)));
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
   * What was recorded in a period (by when it was received) under the latest seal, each record with its proof, and the earlier seals with theirs.
   * Throws where that is more than fits.
   */
  async bundle(book: BookInfo, from: string, until: string): Promise<SealBundle> {
    const seal = await this.latest(book);
    return this.tenancy.reading(book.organisation, async (client) => {
      const { first, count } = await placesBetween(client, book, from, until);
      const sealed = Math.max(0, Math.min(count, seal.size - first));
      if (sealed > maxInBundle)
        throw new ProblemException({
          problem: 'unacceptable-value',
          field: 'to',
          acceptable: `a shorter period, with at most ${maxInBundle} records`,
        });
      const tree = new BlockTree(await leavesOf(client, book, seal.size), sha256);
      const [bodies, earlier] = [
        await bodiesFrom(client, book, first, sealed),
        await sealsBefore(client, book, seal.size, earlierInBundle),
      ];
      return {
        checkpoint: seal.note,
        verifierKey: seal.verifierKey,
        from,
        until,
        says: [...sealSays, ...keySays],
        entries: bodies.map((body) => ({ ...entryOf(body), proofHex: tree.inclusionProof(body.seq).map(toHex) })),
        earlier: earlier.map(({ note, size }) => ({ checkpoint: note, proofHex: tree.consistencyProof(size).map(toHex) })),
      };
    });
  }

  private async signed(book: BookInfo, size: number, root: Uint8Array): Promise<Omit<SealRow, 'root'> & { readonly root: Uint8Array }> {
    const origin = originOf(book.id);
    return {
      size,
      root,
      note: signNote(checkpointText({ origin, size, root }), origin, await this.key.seed()),
      at: this.clock.now().toISOString(),
    };
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

function entryOf({ seq, leaf, bytes }: BodyRow): SealBundle['entries'][number] {
  return bytes ? { seq, bytesBase64: toBase64(bytes) } : { seq, withheldLeafHex: toHex(leaf) };
}

function* hashesIn(leaves: Uint8Array): Generator<Uint8Array> {
  for (let at = 0; at < leaves.length; at += 32) yield leaves.subarray(at, at + 32);
}
