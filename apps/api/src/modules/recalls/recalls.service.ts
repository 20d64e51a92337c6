import type { RecallView, TraceView } from '@bakehouse/contracts';
import { grouped } from '@bakehouse/kernel';
import type { Hazard, PayloadFor } from '@bakehouse/records';
import { Inject, Injectable } from '@nestjs/common';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import type { SessionContext } from '../../platform/access/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { Books, LedgerService, ownEntry } from '../../platform/ledger/index.js';
import { TraceService } from '../trace/index.js';
import { callsOfCase, notHeld, oneCase, scopeOfCase } from './recalls.query.js';

export interface NewCase {
  readonly id: string;
  readonly suspect: readonly string[];
  readonly hazard: Hazard;
  readonly hazardName: string;
  readonly practice: boolean;
  readonly said?: string | undefined;
}

/** Opens cases and shows them. The scope is traced here, frozen into the entry, and compared with what the trace finds later. */
@Injectable()
export class RecallsService {
  constructor(
    private readonly traces: TraceService,
    private readonly ledger: LedgerService,
    private readonly books: Books,
    private readonly tenancy: Tenancy,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  async open(session: SessionContext, asked: NewCase): Promise<RecallView> {
    const already = await this.tenancy.reading(session.organisation, (client) => oneCase(client, session.organisation, asked.id));
    if (already) return this.show(session, asked.id);
    const trace = await this.traces.trace(session, {
      suspects: asked.suspect,
      direction: 'forward',
      hazard: asked.hazard,
      actionLevelPpt: null,
    });
    const inHouse = new Set(trace.onHand.map((o) => o.lot));
    const payload: PayloadFor<'recall-opened'> = {
      suspect: [...asked.suspect],
      hazard: asked.hazard,
      hazardName: asked.hazardName,
      practice: asked.practice,
      frozenAt: trace.asOf.map(({ book, size }) => ({ book, size })),
      scopeHash: trace.scopeHash,
      scope: trace.lots.map((l) => ({ lot: l.id, certain: l.certain, minPpt: l.minPpt, maxPpt: l.maxPpt, holdIt: inHouse.has(l.id) })),
    };
    const words = asked.said ? { note: asked.said } : {};
    const entry = ownEntry({ kind: 'recall-opened', payload, words, id: asked.id }, this.clock.now());
    const book = await this.books.organisation(session.organisation);
    const [result] = await this.ledger.writer.record(book, session.askerAt(null), [entry]);
    if (result?.as === 'refused')
      throw new ProblemException({ problem: result.problem, ...(result.field === undefined ? {} : { field: result.field }) });
    return this.show(session, asked.id);
  }

  /** Holds what came into reach since the scope was frozen and is in the house, in the book of the site that has it. Doing it twice holds nothing twice. */
  async holdAdded(session: SessionContext, id: string): Promise<RecallView> {
    const { practice, closedAt, hazardName, changedSince, trace } = await this.show(session, id);
    if (practice || closedAt !== null) throw new ProblemException('unacceptable-value');
    const bySite = grouped(await this.free(session, changedSince.added, trace), (f) => f.book);
    for (const [book, lots] of bySite) {
      const site = await this.books.site(session.organisation, book);
      const entries = lots.map(({ lot }) =>
        ownEntry({ kind: 'hold-placed', payload: { lot, deviation: null }, words: { because: `recall: ${hazardName}` } }, this.clock.now()),
      );
      const results = await this.ledger.writer.record(site, session.askerAt(book), entries);
      const refused = results.find((r) => r.as === 'refused');
      if (refused) throw new ProblemException({ problem: refused.problem });
    }
    return this.show(session, id);
  }

  private async free(session: SessionContext, added: readonly string[], { onHand }: TraceView): ReturnType<typeof notHeld> {
    const here = added.filter((lot) => onHand.some((o) => o.lot === lot));
    return here.length === 0 ? [] : this.tenancy.reading(session.organisation, (c) => notHeld(c, session.organisation, here));
  }

  async show(session: SessionContext, id: string): Promise<RecallView> {
    const found = await this.tenancy.reading(session.organisation, async (client) => {
      const row = await oneCase(client, session.organisation, id);
      return (
        row && {
          row,
          scope: await scopeOfCase(client, session.organisation, id),
          calls: await callsOfCase(client, session.organisation, id),
        }
      );
    });
    if (!found) throw new ProblemException('unknown-recall');
    const { row, scope, calls } = found;
    const trace = await this.traces.trace(
      session,
      { suspects: row.suspect, direction: 'forward', hazard: row.hazard, actionLevelPpt: null },
      calls,
    );
    const changed = changes(scope, trace);
    const free = await this.free(session, changed.added, trace);
    return {
      id: row.id,
      openedAt: row.openedAt,
      hazard: row.hazard,
      hazardName: row.hazardName,
      practice: row.practice,
      said: row.said,
      closedAt: row.closedAt,
      frozenAt: [...row.frozenAt],
      scopeHash: row.scopeHash,
      scopeLots: row.lots,
      held: row.held,
      changedSince: { ...changed, notHeld: free.map((f) => f.lot) },
      trace,
    };
  }
}

function changes(frozen: readonly string[], trace: TraceView): Omit<RecallView['changedSince'], 'notHeld'> {
  const then = new Set(frozen);
  const now = new Set(trace.lots.map((l) => l.id));
  return { added: [...now].filter((lot) => !then.has(lot)), gone: [...then].filter((lot) => !now.has(lot)) };
}
