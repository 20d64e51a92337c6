import type { ClosedOver, DetailsOfSite, RecallView } from '@bakehouse/contracts';
import { heldBy, notReachedBy, type Hazard, type PayloadFor } from '@bakehouse/records';
import { beginsAnew, stillReached, type Reached } from '@bakehouse/views';
import { Inject, Injectable } from '@nestjs/common';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import type { SessionContext } from '../../platform/access/index.js';
import { Tenancy, type Transaction } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { Books, LedgerService, ownEntry } from '../../platform/ledger/index.js';
import { detailsOfSites } from '../catalogue/index.js';
import { TraceService } from '../trace/index.js';
import { callsOfCase, decisionsOfCase, notifiedInCaseOf, oneCase, scopeOfCase, type CaseRow } from './recalls.query.js';

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
    const question = { suspects: asked.suspect, direction: 'forward', hazard: asked.hazard, actionLevelPpt: null } as const;
    const { asOf, scopeHash, inScope } = await this.traces.scope(session, question);
    const payload: PayloadFor<'recall-opened'> = {
      suspect: [...asked.suspect],
      hazard: asked.hazard,
      hazardName: asked.hazardName,
      practice: asked.practice,
      frozenAt: asOf.map(({ book, size }) => ({ book, size })),
      scopeHash,
      // Everything in scope, at every site: a case that leaves out what its opener may not look at would hold too little.
      scope: inScope.map((r) => ({
        lot: r.lot,
        certain: r.certain,
        minPpt: r.min === null ? null : Number(r.min),
        maxPpt: r.max === null ? null : Number(r.max),
        begins: r.by === null || beginsAnew(r.by),
      })),
    };
    const words = asked.said ? { note: asked.said } : {};
    const entry = ownEntry({ kind: 'recall-opened', payload, words, id: asked.id }, this.clock.now());
    const book = await this.books.organisation(session.organisation);
    const [result] = await this.ledger.writer.record(book, session.askerAt(null), [entry]);
    // Somebody else opened the same case while this one was traced: it is there, and that is what was asked for.
    if (result?.as === 'refused' && result.problem !== 'id-reused')
      throw new ProblemException({ problem: result.problem, ...(result.field === undefined ? {} : { field: result.field }) });
    return this.show(session, asked.id);
  }

  /** Takes what came into reach since the scope was frozen, and the case does not hold yet, into the case. Doing it twice takes in nothing twice. */
  async extend(session: SessionContext, id: string): Promise<RecallView> {
    const { view, free, comes } = await this.tenancy.reading(session.organisation, (client) => this.standing(client, session, id));
    if (view.practice) throw new ProblemException('unacceptable-value');
    if (view.closedAt !== null) throw new ProblemException('already-closed');
    if (free.length > 0) {
      const payload: PayloadFor<'recall-scope-extended'> = { recall: id, lots: comes.map(({ lot, certain }) => ({ lot, certain })) };
      const book = await this.books.organisation(session.organisation);
      const entry = ownEntry({ kind: 'recall-scope-extended', payload }, this.clock.now());
      const [result] = await this.ledger.writer.record(book, session.askerAt(null), [entry]);
      if (result?.as === 'refused') throw new ProblemException({ problem: result.problem });
    }
    return this.show(session, id);
  }

  show(session: SessionContext, id: string): Promise<RecallView> {
    return this.tenancy.reading(session.organisation, (client) => this.shown(client, session, id));
  }

  /** The same with a transaction of the caller's: a paper prints what it lists besides as of the same moment. */
  async shown(client: Transaction, session: SessionContext, id: string): Promise<RecallView> {
    return (await this.standing(client, session, id)).view;
  }

  /** @throws ProblemException where the house has no such case */
  async requireKnown({ organisation }: SessionContext, id: string): Promise<void> {
    const found = await this.tenancy.reading(organisation, (client) => oneCase(client, organisation, id));
    if (!found) throw new ProblemException('unknown-recall');
  }

  /** A case as it stands now, all of it as of one moment. The whole of it is compared first; then what the reader may not look at is left out. */
  private async standing(
    client: Transaction,
    session: SessionContext,
    id: string,
  ): Promise<{ view: RecallView; free: readonly Reached[]; comes: readonly Reached[] }> {
    const { organisation } = session;
    const row = await oneCase(client, organisation, id);
    if (!row) throw new ProblemException('unknown-recall');
    const frozen = await scopeOfCase(client, organisation, id);
    const calls = await callsOfCase(client, organisation, id);
    const decisions = await decisionsOfCase(client, organisation, id);
    const notified = await notifiedInCaseOf(client, organisation, id);
    const scope = frozen.map((s) => s.lot);
    const question = { suspects: row.suspect, direction: 'forward', hazard: row.hazard, actionLevelPpt: null } as const;
    const begins = frozen.filter((s) => s.begins).map((s) => s.lot);
    const { view: trace, inScope, standings, state, flows } = await this.traces.traced(client, session, question, calls, begins);
    const undecided = heldBy(state, [id], begins);
    const holds = (lot: string): boolean => standings.get(lot)?.concerns.some((c) => c.id === id) ?? false;
    const [then, now] = [new Set(scope), new Set(inScope.map((r) => r.lot))];
    const added = inScope.filter((r) => !then.has(r.lot));
    const decided = new Set(decisions.map((d) => d.lot));
    const still = stillReached(flows, row.suspect, new Set(decisions.flatMap((d) => (d.covers === 'what-came-of-it' ? d.lot : []))));
    const notIn = row.practice ? [] : added.filter((r) => still.has(r.lot) && !holds(r.lot) && !decided.has(r.lot));
    const free = notIn.filter((r) => standings.get(r.lot)?.gone === false);
    const seen = new Set(trace.lots.map((l) => l.id));
    const sites = await this.sitesOf(session, new Set(trace.lots.map((l) => l.site)));
    const lotsOf = (some: readonly Reached[]): string[] => some.map((r) => r.lot).filter((lot) => seen.has(lot));
    const nameOf = new Map(trace.contacts.map((c) => [c.party, c.name]));
    const customers = (parties: readonly string[]) => parties.map((party) => ({ party, name: nameOf.get(party) ?? null }));
    const { openedAt, hazard, hazardName, practice, said, closedAt, closedBy, whyOnHold, conclusion, scopeHash, lots: scopeLots } = row;
    return {
      free,
      // What is food of these comes with them, and is freed with them.
      comes: notIn.filter((r) => still.get(r.lot) === 'begins'),
      view: {
        ...{ id, openedAt, hazard, hazardName, practice, said, closedAt, closedBy, whyOnHold, conclusion, scopeHash, scopeLots },
        frozenAt: [...row.frozenAt],
        held: undecided.length,
        undecided: undecided.map(({ id: lot, name, code }) => ({ lot, ...(seen.has(lot) ? { name, code } : { name: null, code: null }) })),
        decisions: decisions.filter((d) => seen.has(d.lot)),
        sites,
        notReached: customers(notReachedBy(state, calls, begins)),
        closedOver: closedOverOf(row, customers),
        // Whom they spoke to is told to those who see whom to ring.
        notified: notified.map((n) => (trace.contactsShown ? n : { ...n, spokeTo: null, said: null })),
        changedSince: { added: lotsOf(added), gone: scope.filter((lot) => !now.has(lot)), notHeld: lotsOf(free) },
        trace,
      },
    };
  }

  /** The sites of these names, each with the authority to inform. */
  private async sitesOf({ organisation }: SessionContext, names: ReadonlySet<string>): Promise<DetailsOfSite[]> {
    const sites = (await this.books.all(organisation)).filter((b) => b.type === 'site' && names.has(b.name));
    const now = this.clock.now().toISOString();
    return this.tenancy.reading(organisation, (client) => detailsOfSites(client, organisation, sites, now));
  }
}

/** Over what a case was closed, as far as its closing was asked. */
const closedOverOf = (
  { notTold, whyAuthorityNotTold, whyNoNotice, notReached, whyNotReached }: CaseRow,
  customers: (parties: readonly string[]) => ClosedOver['notReached'],
): ClosedOver | null =>
  notTold === null
    ? null
    : { notTold: [...notTold], whyAuthorityNotTold, whyNoNotice, whyNotReached, notReached: customers(notReached ?? []) };
