import { Injectable } from '@nestjs/common';
import { Tenancy, type Holds, type TableRow } from '../database/index.js';
import { ProblemException } from '../http/index.js';
import type { BookRef } from './types.js';

type Book = TableRow<'book'>;
interface BookRow extends Pick<Book, 'id' | 'name' | 'zone' | 'dayStarts'> {
  readonly type: Holds<Book['type'], BookRef['type']>;
}
export type BookInfo = BookRef & { readonly name: string; readonly dayStarts: string };

/** An organisation's books: they are made with it and seldom change, so they are asked for once and kept. */
@Injectable()
export class Books {
  private readonly known = new Map<string, Promise<readonly BookInfo[]>>();

  constructor(private readonly tenancy: Tenancy) {}

  async all(organisation: string): Promise<readonly BookInfo[]> {
    const asked = this.known.get(organisation) ?? this.load(organisation);
    this.known.set(organisation, asked);
    return asked.catch((error: unknown) => {
      this.known.delete(organisation);
      throw error;
    });
  }

  /** A site's book; a site of another organisation is not there. A miss is looked up again: the site may be new. */
  async site(organisation: string, site: string): Promise<BookInfo> {
    return this.one(organisation, (b) => b.type === 'site' && b.id === site);
  }

  async organisation(organisation: string): Promise<BookInfo> {
    return this.one(organisation, (b) => b.type === 'organisation');
  }

  private async one(organisation: string, fits: (b: BookInfo) => boolean): Promise<BookInfo> {
    const found = (await this.all(organisation)).find(fits);
    if (found) return found;
    this.known.delete(organisation);
    const again = (await this.all(organisation)).find(fits);
    if (!again) throw new ProblemException('unknown-site');
    return again;
  }

  private load(organisation: string): Promise<readonly BookInfo[]> {
    return this.tenancy.reading(organisation, async (client) => {
      const { rows } = await client.query<BookRow>(
        'SELECT id, type, name, zone, day_starts AS "dayStarts" FROM book WHERE organisation = $1',
        [organisation],
      );
      return rows.map((row) => ({ ...row, organisation }));
    });
  }
}

/** What a site is called, by its id; nothing for one that is not there. */
export const siteNameIn =
  (books: readonly Pick<BookInfo, 'id' | 'name'>[]) =>
  (site: string): string =>
    books.find((b) => b.id === site)?.name ?? '';
