import type { PaperOrder } from '@bakehouse/contracts';
import { Inject, Injectable, type OnModuleDestroy } from '@nestjs/common';
import { LRUCache } from 'lru-cache';
import type { SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { Metrics } from '../../platform/metrics/index.js';
import { uuidv7 } from '../../platform/ids/index.js';

/** A paper under the name that it is saved by. */
export interface Made {
  readonly bytes: Buffer;
  readonly name: string;
}
type Buyer = Pick<SessionContext, 'organisation' | 'person'>;
interface Order {
  readonly id: string;
  readonly by: Buyer;
  readonly make: () => Promise<Made>;
  /** How many of the same person's were before it: who ordered little waits for no one who ordered much. Below nothing: a recall's. */
  readonly turn: number;
}
interface Ended {
  readonly by: Buyer;
  readonly result: { readonly made: Made } | { readonly error: unknown };
}

/** So many wait at most for one person, and for all. An order that waits is small: what it shows is read when its turn comes. */
const maxOfOne = 100;
const maxOfAll = 500;
const retryAfter = { 'retry-after': '60' };
/** A paper that nobody fetches is let go: it can be made again from the same records. */
const kept = { ttl: 15 * 60_000, maxSize: 128 * 1024 * 1024 };

/** Papers that were ordered, made one after the other: a recall's first, then one of each person's in turn. */
@Injectable()
export class PaperOrders implements OnModuleDestroy {
  private readonly waiting: Order[] = [];
  private busy: Order | undefined;
  private readonly cancelled = new Set<Order>();
  private readonly ended = new LRUCache<string, Ended>({
    ...kept,
    sizeCalculation: ({ result }) => ('made' in result ? Math.max(1, result.made.bytes.length) : 1),
  });

  constructor(
    @Inject(CLOCK) private readonly clock: Clock,
    metrics: Metrics,
  ) {
    metrics.gauge('bakehouse_papers_in_line', 'Ordered papers that are not made yet', () => this.waiting.length + (this.busy ? 1 : 0));
  }

  /** @throws ProblemException where too many wait already */
  order({ organisation, person }: Buyer, make: () => Promise<Made>, urgent = false): PaperOrder {
    if (this.waiting.length >= maxOfAll || this.waiting.filter((o) => o.by.person === person).length >= maxOfOne)
      throw new ProblemException('too-many-requests', retryAfter);
    const by = { organisation, person };
    const turn = urgent ? -1 : this.waiting.filter((o) => sameBuyer(o.by, by)).length;
    const order = { id: uuidv7(this.clock.now()), by, make, turn };
    const later = this.waiting.findIndex((o) => o.turn > turn);
    this.waiting.splice(later < 0 ? this.waiting.length : later, 0, order);
    void this.work();
    return this.of(order.by, order.id);
  }

  /** @throws ProblemException where it is nobody's, another's, or was let go */
  of(by: Buyer, id: string): PaperOrder {
    const place = this.waiting.findIndex((o) => o.id === id && sameBuyer(o.by, by));
    if (place >= 0) return { id, state: 'in-line', ahead: place + (this.busy ? 1 : 0) };
    if (this.busy?.id === id && sameBuyer(this.busy.by, by) && !this.cancelled.has(this.busy)) return { id, state: 'being-made', ahead: 0 };
    return { id, state: 'made' in this.endedOf(by, id).result ? 'done' : 'failed', ahead: 0 };
  }

  /** The paper that was made. Throws what kept it from being made. */
  fileOf(by: Buyer, id: string): Made {
    const { result } = this.endedOf(by, id);
    if ('error' in result) throw result.error;
    return result.made;
  }

  /** Takes an order back, however far it is: one that waits is not made, and one that was made, or is being made, is let go. */
  cancel(by: Buyer, id: string): void {
    const { state } = this.of(by, id);
    if (state === 'being-made' && this.busy) this.cancelled.add(this.busy);
    else if (state === 'in-line')
      this.waiting.splice(
        this.waiting.findIndex((o) => o.id === id),
        1,
      );
    else this.ended.delete(id);
  }

  /** What waits is not begun any more: the service ends. */
  onModuleDestroy(): void {
    this.waiting.length = 0;
  }

  private endedOf(by: Buyer, id: string): Ended {
    const found = this.ended.get(id);
    if (found === undefined || !sameBuyer(found.by, by)) throw new ProblemException('not-found');
    return found;
  }

  private async work(): Promise<void> {
    if (this.busy) return;
    for (this.busy = this.waiting.shift(); this.busy; this.busy = this.waiting.shift()) {
      const order = this.busy;
      const { id, by, make } = order;
      const result = await make().then(
        (made) => ({ made }),
        (error: unknown) => ({ error }),
      );
      if (!this.cancelled.delete(order)) this.ended.set(id, { by, result });
    }
  }
}

const sameBuyer = (a: Buyer, b: Buyer): boolean => a.organisation === b.organisation && a.person === b.person;
