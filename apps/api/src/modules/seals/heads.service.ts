import type { HeadsDiffer, SignedHeads } from '@bakehouse/contracts';
import { followKeys, Frontier, openSeal, readCheckpoint, rootOf, sameBytes, toHex } from '@bakehouse/ledger';
import { Injectable } from '@nestjs/common';
import { fromOf, SecurityLog, type SessionContext } from '../../platform/access/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { originOf, sha256, type BookInfo } from '../../platform/ledger/index.js';
import { BlockTree, hashesIn } from './block-tree.js';
import { keysToSeal, keysToShow } from './book-keys.js';
import { SealKey } from './seal-key.js';
import { signed } from './seal-now.js';
import { headOf, leavesOf, type Client } from './seals.query.js';

type Head = SignedHeads['heads'][number];

/** Signs the heads of books for those who remember what they saw; keeps none of them, and notes what tablets say does not go on. */
@Injectable()
export class HeadsService {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly key: SealKey,
    private readonly security: SecurityLog,
  ) {}

  /** Each book's head as it stands, with the proof from the size that is named with it; of a book without one, from nothing. */
  async signed(books: readonly (readonly [BookInfo, number | undefined])[]): Promise<SignedHeads> {
    const [first] = books;
    if (!first) return { heads: [] };
    return this.tenancy.inOrganisation(first[0].organisation, async (client) => {
      const heads: Head[] = [];
      for (const [book, seen] of books) heads.push(await this.head(client, book, seen ?? 0));
      return { heads };
    });
  }

  /** Notes for the administrator what a tablet saw; and whether what it brings was signed here, and is in fact not the beginning of what is there. */
  async differs(book: BookInfo, { why, seen, now }: HeadsDiffer, session: SessionContext, address: string): Promise<void> {
    const origin = originOf(book.id);
    const { said, here } = await this.tenancy.reading(book.organisation, async (client) => {
      const { statements, verifierKey } = await keysToShow(client, book, this.key);
      const { checkpoint: found } = openSeal(seen.note, followKeys(statements, verifierKey).turns);
      const size = (await headOf(client, book))?.size ?? 0;
      const root = found && found.size <= size ? rootOf(hashesIn(await leavesOf(client, book, found.size)), sha256) : null;
      return { said: found, here: root };
    });
    const judged =
      said?.origin !== origin
        ? 'what it saw is not signed by the key that is here now, nor by one before it'
        : here === null
          ? `it saw ${said.size} records, signed here, and there are fewer`
          : sameBytes(here, said.root)
            ? `what it saw, ${said.size} records, is the beginning of what is here`
            : `it saw ${said.size} records, signed here, and the first ${said.size} are others now`;
    const shown = readCheckpoint(now.note.slice(0, now.note.lastIndexOf('\n\n') + 1));
    await this.security.noteAlone(book.organisation, {
      what: 'history-differs',
      person: session.person,
      from: fromOf(session, address),
      detail: `${book.name}: ${why}; seen ${seen.at}; shown ${shown?.size ?? 'nothing that can be read'}; ${judged}`,
    });
  }

  private async head(client: Client, book: BookInfo, seen: number): Promise<Head> {
    const { seed, verifierKey, statements } = await keysToSeal(client, book, this.key);
    const head = await headOf(client, book);
    if (!head) throw new ProblemException('unknown-site');
    const { size } = head;
    const root = Frontier.from(size, head.frontier, sha256).root();
    return {
      book: book.id,
      name: book.name,
      size,
      note: signed(book, seed, { size, root }).note,
      verifierKey,
      keys: [...statements],
      proofHex: await proof(client, book, seen, size),
    };
  }
}

async function proof(client: Client, book: BookInfo, from: number, to: number): Promise<string[] | null> {
  if (from > to) return null;
  if (from === 0 || from === to) return [];
  return new BlockTree(await leavesOf(client, book, to), sha256).consistencyProof(from).map(toHex);
}
