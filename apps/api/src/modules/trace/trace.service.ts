import type { TraceView } from '@bakehouse/contracts';
import type { TraceFlow, TraceGraph } from '@bakehouse/graph';
import { localDay, type Permission } from '@bakehouse/kernel';
import { canonicalBytes } from '@bakehouse/ledger';
import {
  heldNeeds,
  informedBy,
  keepsNeeds,
  loadsNeeds,
  pastUseBy,
  roomNeeds,
  roomsIn,
  subjectsOf,
  type Need,
  type State,
} from '@bakehouse/records';
import {
  batchStandingsOf,
  frozenScopeOf,
  needsOfBatchStandings,
  partsOf,
  tracedOf,
  type ContactMade,
  type FrozenScope,
  type Standing,
  type TraceQuestion,
  type Traced,
} from '@bakehouse/views';
import { Inject, Injectable } from '@nestjs/common';
import type { SessionContext } from '../../platform/access/index.js';
import { Tenancy, type Transaction } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Books, bookSizes, loadState, sha256, siteNameIn, type BookSize } from '../../platform/ledger/index.js';
import { doubtsAbout, standingOf } from '../standing/index.js';
import { calledAlike } from './alike.query.js';
import { casesWith } from './cases.query.js';
import { endsOf } from './ends.query.js';
import { heatOf, type RecordedUnder } from './heat.query.js';
import { allKnown } from './known-lots.query.js';
import { graphOf, reachedFrom, type Found } from './reach.query.js';

/**
 * Whom to ring is for those who may record a call of the house or hand the list on, and who showed with their PIN that it is them. Somebody of one site
 * records no call of the house; a viewer and a tapped name get names alone.
 */
const seesContacts: readonly Permission[] = ['record', 'decide.recall', 'manage.catalogue', 'export', 'inspect'];
const mayRing = (session: SessionContext): boolean =>
  session.strength === 'pin' && seesContacts.some((p) => session.permissionsAt(null).has(p));

export interface WholeTrace extends Traced {
  readonly standings: ReadonlyMap<string, Standing>;
  readonly flows: readonly TraceFlow[];
  /** The records that say so. */
  readonly state: State;
}

const hashOf = (value: unknown): string => sha256(canonicalBytes(value)).toString('hex');

/** Asks one question of the flows and does the sums; everything is seen as of one moment. */
@Injectable()
export class TraceService {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  async trace(session: SessionContext, question: TraceQuestion): Promise<TraceView> {
    const [lot, ...more] = question.suspects;
    const asksOne = lot !== undefined && more.length === 0 && question.direction === 'forward';
    return this.tenancy.reading(session.organisation, async (client) => {
      const cases = asksOne ? await casesWith(client, session.organisation, lot) : [];
      // A lot that was recalled is traced as its case is, where nobody asks otherwise, and who was told in it was told of this lot.
      const real = cases.find((c) => !c.practice);
      const asked = { ...question, hazard: question.hazard ?? real?.hazard ?? null };
      const { view } = await this.traced(client, session, asked, real?.calls ?? []);
      return { ...view, cases: cases.map(({ calls, ...c }) => ({ ...c, told: informedBy(calls).size })) };
    });
  }

  /** The whole scope of a question, at every site, and of which records: what a case freezes. */
  scope(session: SessionContext, question: TraceQuestion): Promise<FrozenScope & { readonly asOf: readonly BookSize[] }> {
    return this.tenancy.reading(session.organisation, async (client) => {
      const { graph } = await graphOf(client, session.organisation, await this.reachedBy(client, session, question));
      const state = await loadState(client, await this.books.all(session.organisation), (known) => roomsNeeded(known, graph));
      return { ...frozenScopeOf({ question, graph, roomOf: roomsIn(state), hashOf }), asOf: await bookSizes(client, session.organisation) };
    });
  }

  private async reachedBy(
    client: Parameters<typeof reachedFrom>[0],
    { organisation }: SessionContext,
    question: TraceQuestion,
  ): Promise<Found> {
    if (!(await allKnown(client, organisation, question.suspects))) throw new ProblemException('unknown-lot');
    // Where nobody has said what it is, it may be a germ or an allergen.
    const contact = question.direction === 'forward' && [null, 'microbiological', 'allergen'].includes(question.hazard);
    return reachedFrom(client, organisation, question.suspects, question.direction, contact);
  }

  /**
   * The trace with what the reader may not see beside it: a case is compared first, and hidden after. `begins` is what a case begins at: the records that say
   * what it still holds are read along. All of it is seen with `client`, so that what is read besides with it is of the same moment.
   */
  async traced(
    client: Transaction,
    session: SessionContext,
    question: TraceQuestion,
    calls: readonly ContactMade[],
    begins: readonly string[] = [],
  ): Promise<WholeTrace> {
    const books = await this.books.all(session.organisation);
    const siteName = siteNameIn(books);
    const zoneOf = (book: string): string => books.find((b) => b.id === book)?.zone ?? 'UTC';
    const mayLook = (book: string): boolean => session.permissionsAt(book).has('view') || session.permissionsAt(book).has('inspect');
    const found = await this.reachedBy(client, session, question);
    const { reached, beside } = found;
    const [{ graph }, ends] = await Promise.all([
      graphOf(client, session.organisation, found),
      endsOf(client, session.organisation, [...reached, ...beside]),
    ]);
    const now = this.clock.now().toISOString();
    // How lots stand and until when they keep is said of what came of a lot, and not of what went into one.
    const standing = question.direction === 'forward' ? reached : [];
    const parts = question.suspects.flatMap((make) => partsOf(graph, make).map((p) => p.id));
    const batches = parts.filter((id) => question.direction === 'forward' && graph.lots.get(id)?.type === 'batch');
    const { standings, state } = await standingOf(client, books, standing, now, (known) => [
      ...heldNeeds(known, begins),
      ...roomsNeeded(known, graph),
      ...standing.flatMap((lot) => keepsNeeds(known, lot)),
      ...needsOfBatchStandings(known, batches),
      ...(question.hazard === 'microbiological' ? reached.flatMap((lot) => heatedNeeds(known, lot)) : []),
    ]);
    const heated = question.hazard === 'microbiological' ? reached.flatMap((lot) => subjectsHeated(state, lot)) : [];
    const read = heated.length > 0 ? await heatOf(client, session.organisation, heated) : [];
    const doubts = await doubtsAbout(client, books, read);
    const traced = tracedOf({
      question,
      graph,
      roomOf: roomsIn(state),
      alike: await calledAlike(client, session.organisation, question.suspects),
      ends,
      heat: read.map(({ id, instrument: _i, class: _c, ...step }) => ({ ...step, doubt: doubts.get(id) ?? null })),
      calls,
      asOf: (await bookSizes(client, session.organisation)).map(({ book, name, size }) => ({ book, name, size })),
      siteName,
      mayLook,
      contactsShown: mayRing(session),
      standings,
      batchStandings: batchStandingsOf(state, batches, now),
      pastUseBy: ({ id, book }) => pastUseBy(state, id, () => localDay(now, zoneOf(book)), now)[0]?.useBy ?? null,
      hashOf,
    });
    return { ...traced, standings, state, flows: graph.flows };
  }
}

/** What tells how much there was of each lot that something was perhaps of. */
const roomsNeeded = (known: State, { flows }: TraceGraph): Need[] =>
  [...new Set(flows.flatMap((f) => (f.anyOf === null ? [] : f.source)))].flatMap((lot) => roomNeeds(known, lot));

/** What has to be looked for, as far as can be named now, before `subjectsHeated` can be asked. */
function heatedNeeds(state: State, lot: string): Need[] {
  const batch: Need = { in: 'batch', id: lot };
  const found = state.knows(batch) ? state.get('batch', lot) : undefined;
  return [batch, { in: 'make', id: lot }, ...(found ? loadsNeeds(found) : [])];
}

/** What a lot was baked or cooked under, as far as it was: a batch, its make, its run and its loads; a make. */
function subjectsHeated(state: State, lot: string): RecordedUnder[] {
  const batch = state.get('batch', lot);
  const subjects = batch ? subjectsOf(batch, state) : state.get('make', lot) ? [lot] : [];
  return subjects.map((subject) => ({ lot, subject }));
}
