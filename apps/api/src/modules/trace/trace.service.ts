import type { TraceView } from '@bakehouse/contracts';
import type { Permission } from '@bakehouse/kernel';
import { canonicalBytes } from '@bakehouse/ledger';
import { traceViewOf, type ContactMade, type TraceQuestion } from '@bakehouse/views';
import { Injectable } from '@nestjs/common';
import type { SessionContext } from '../../platform/access/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { Books, bookSizes, sha256 } from '../../platform/ledger/index.js';
import { endsOf } from './ends.query.js';
import { heatOf } from './heat.query.js';
import { allKnown } from './known-lots.query.js';
import { reachableGraph } from './reach.query.js';

/** People who record may have to call, and an authority needs the list with its numbers; a viewer gets names only. */
const seesContacts: readonly Permission[] = ['record', 'decide.recall', 'manage.catalogue', 'export', 'inspect'];

/** Asks one question of the flows and does the sums; everything is seen as of one moment. */
@Injectable()
export class TraceService {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
  ) {}

  async trace(session: SessionContext, question: TraceQuestion, calls: readonly ContactMade[] = []): Promise<TraceView> {
    const books = await this.books.all(session.organisation);
    const siteName = (book: string): string => books.find((b) => b.id === book)?.name ?? '';
    const mayLook = (book: string): boolean => session.permissionsAt(book).has('view') || session.permissionsAt(book).has('inspect');
    const contactsShown = [null, ...session.sites].some((site) => seesContacts.some((p) => session.permissionsAt(site).has(p)));
    return this.tenancy.reading(session.organisation, async (client) => {
      if (!(await allKnown(client, session.organisation, question.suspects))) throw new ProblemException('unknown-lot');
      const contact = question.direction === 'forward' && (question.hazard === 'microbiological' || question.hazard === 'allergen');
      const { reached, graph } = await reachableGraph(client, session.organisation, question.suspects, question.direction, contact);
      const ends = await endsOf(client, session.organisation, reached);
      const heat = question.hazard === 'microbiological' ? await heatOf(client, session.organisation, reached) : [];
      return traceViewOf({
        question,
        graph,
        ends,
        heat,
        calls,
        asOf: (await bookSizes(client, session.organisation)).map(({ book, name, size }) => ({ book, name, size })),
        siteName,
        mayLook,
        contactsShown,
        hashOf: (value) => sha256(canonicalBytes(value)).toString('hex'),
      });
    });
  }
}
