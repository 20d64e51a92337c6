import { Inject, Injectable, type BeforeApplicationShutdown, type MessageEvent } from '@nestjs/common';
import {
  catchError,
  defer,
  distinctUntilChanged,
  EMPTY,
  exhaustMap,
  finalize,
  interval,
  map,
  merge,
  ReplaySubject,
  share,
  skipWhile,
  Subject,
  takeUntil,
  timer,
  type Observable,
} from 'rxjs';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { bookSizes } from '../../platform/ledger/index.js';

/** How often it is looked how far the books are: whichever process wrote, each process sees it there. */
const lookEveryMs = 1_000;
/** How often a listener is told that all is well, and it is asked whether they may listen still. */
const aliveEveryMs = 25_000;
/** More in one process are sent away: they ask now and then instead. */
const maxListeners = 500;
/** A tablet needs one for each of its tabs: one person cannot take the places of all the others. */
const maxOfSession = 8;
/** Nor can somebody who signs on again and again: these are the tablets and desks that one person is signed on at. */
const maxOfPerson = 24;

interface Listener {
  readonly organisation: string;
  readonly session: string;
  readonly person: string;
  /** What they were told last, on a connection that broke. */
  readonly last: string | undefined;
  /** @throws where they may not listen any more */
  stillMay(): Promise<unknown>;
}

/** Says how far the books of a house are, to everybody who listens. One look a second serves all listeners of a house; none listens, none looks. */
@Injectable()
export class HeadWatch implements BeforeApplicationShutdown {
  private readonly ended = new Subject<void>();
  private readonly houses = new Map<string, Observable<number>>();
  private readonly listeners: Pick<Listener, 'session' | 'person'>[] = [];

  constructor(@Inject(Tenancy) private readonly tenancy: Pick<Tenancy, 'reading'>) {}

  /** A shutdown waits for no connection that is held open: the listener asks again, and the process that runs then answers. */
  beforeApplicationShutdown(): void {
    this.ended.next();
  }

  /** @throws ProblemException where too many listen already */
  events({ organisation, session, person, last, stillMay }: Listener): Observable<MessageEvent> {
    if (this.listeners.length >= maxListeners) throw new ProblemException('unavailable');
    const of = (key: 'session' | 'person', id: string): number => this.listeners.filter((one) => one[key] === id).length;
    if (of('session', session) >= maxOfSession || of('person', person) >= maxOfPerson) throw new ProblemException('too-many-requests');
    const listener = { session, person };
    this.listeners.push(listener);
    const told = this.sizeOf(organisation).pipe(
      map(String),
      skipWhile((size) => size === last),
      map((size) => ({ id: size, data: size })),
    );
    const alive = interval(aliveEveryMs).pipe(
      exhaustMap(stillMay),
      map(() => ({ comment: 'alive' })),
    );
    return merge(told, alive).pipe(
      catchError(() => EMPTY),
      takeUntil(this.ended),
      finalize(() => {
        this.listeners.splice(this.listeners.indexOf(listener), 1);
      }),
    );
  }

  /** How many entries all books of a house hold together: each new one makes it one more. */
  private sizeOf(organisation: string): Observable<number> {
    const known = this.houses.get(organisation);
    if (known) return known;
    const look = defer(() => this.tenancy.reading(organisation, (client) => bookSizes(client, organisation)));
    const size = timer(0, lookEveryMs).pipe(
      exhaustMap(() => look.pipe(catchError(() => EMPTY))), // a look that failed is made up for by the next
      map((books) => books.reduce((sum, book) => sum + book.size, 0)),
      distinctUntilChanged(),
      finalize(() => this.houses.delete(organisation)),
      share({ connector: () => new ReplaySubject(1) }),
    );
    this.houses.set(organisation, size);
    return size;
  }
}
