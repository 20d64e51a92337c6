import type { WireProblem } from '@bakehouse/api-client';
import type { Timer } from '../ports/timer.js';
import { pendingOf, type Outbox } from '../store/outbox.js';
import { refusedFor, type Fate, type SavedEntry } from '../store/saved-entry.js';
import { backOff } from './back-off.js';
import type { Answer, Door } from './door.js';

/** As many as the door takes at once. */
const maxConcurrency = 200;

export interface SendingState {
  /** Null until the first try. */
  readonly connected: boolean | null;
  /** People for whom nobody is signed on, so that what they typed waits. */
  readonly needsSignOn: readonly string[];
}

type Tried = 'nothing-to-send' | 'went-on' | 'only-waiting' | 'not-signed-on' | 'unreachable';

/** Sends what is saved, in order, as often as it takes. One at a time; what is refused never stands in the way of what follows. */
export class Sender {
  private running: Promise<void> | undefined;
  private again = false;
  private failures = 0;
  private pauseMs: number | undefined;
  private cancel: (() => void) | undefined;
  private now: SendingState = { connected: null, needsSignOn: [] };

  constructor(
    private readonly outbox: Outbox,
    private readonly door: Door,
    private readonly timer: Timer,
    private readonly changed: (state: SendingState) => void | Promise<void> = () => undefined,
  ) {}

  get state(): SendingState {
    return this.now;
  }

  /** Sends now; asked again while it is busy, goes on once more after that. Settles when there is nothing to do, or when it has to wait. */
  kick(): Promise<void> {
    if (this.running) {
      this.again = true;
      return this.running;
    }
    this.running = this.pump().finally(() => {
      this.running = undefined;
    });
    return this.running;
  }

  /** The network is said to be back: no need to sit out the pause. */
  wake(): Promise<void> {
    this.failures = 0;
    return this.kick();
  }

  stop(): void {
    this.cancel?.();
  }

  private async pump(): Promise<void> {
    this.cancel?.();
    let result: Tried;
    do {
      this.again = false;
      result = await this.tryAll();
    } while (result === 'went-on' || this.again);
    if (result === 'nothing-to-send') {
      this.failures = 0;
      return;
    }
    this.cancel = this.timer.after(this.pauseMs ?? backOff(this.failures), () => {
      void this.kick();
    });
    this.failures += 1;
  }

  /** One round: every stretch of entries that go to one book in one person's name. */
  private async tryAll(): Promise<Tried> {
    const pending = pendingOf((await this.outbox.read()).entries);
    if (pending.length === 0) return 'nothing-to-send';
    const needsSignOn = new Set<string>();
    let progress = false;
    for (const stretch of stretches(pending)) {
      const tried = await this.trySome(stretch);
      if (tried === 'unreachable') {
        await this.tell({ connected: false, needsSignOn: [...needsSignOn] });
        return 'unreachable';
      }
      if (tried === 'not-signed-on') needsSignOn.add(stretch[0]?.typedBy ?? '');
      if (tried === 'went-on') progress = true;
    }
    if (await this.outbox.refuseWhatFollows()) progress = true;
    await this.tell({ connected: true, needsSignOn: [...needsSignOn] });
    return progress ? 'went-on' : needsSignOn.size > 0 ? 'not-signed-on' : 'only-waiting';
  }

  private async trySome(some: readonly SavedEntry[]): Promise<Tried> {
    const [head] = some;
    if (!head) return 'nothing-to-send';
    await this.outbox.tried(some.map((e) => e.seq));
    const reply = await this.door.send(head, some.map(onTheWire));
    this.pauseMs = reply.as === 'unreachable' ? reply.afterMs : undefined;
    switch (reply.as) {
      case 'unreachable':
      case 'not-signed-on':
        return reply.as;
      case 'answered': {
        const fates = some.flatMap((e, i): [number, Fate][] => {
          const a = reply.answers[i];
          return a ? [[e.seq, fateOf(a)]] : [];
        });
        await this.outbox.settle(new Map(fates));
        return fates.some(([, fate]) => fate.as !== 'waiting') ? 'went-on' : 'only-waiting';
      }
      case 'refused':
        return this.refusedAsAWhole(some, reply.problem);
    }
  }

  /** Something in it is not even looked at: halves find out what, and one alone is told to a person. */
  private async refusedAsAWhole(some: readonly SavedEntry[], problem: WireProblem): Promise<Tried> {
    const [head] = some;
    if (some.length === 1 && head) {
      await this.outbox.settle(new Map([[head.seq, refusedFor(problem)]]));
      return 'went-on';
    }
    const half = Math.ceil(some.length / 2);
    const first = await this.trySome(some.slice(0, half));
    if (first === 'unreachable' || first === 'not-signed-on') return first;
    const second = await this.trySome(some.slice(half));
    return second === 'unreachable' || second === 'not-signed-on' ? second : 'went-on';
  }

  private async tell(state: SendingState): Promise<void> {
    this.now = state;
    await this.changed(state);
  }
}

/** Consecutive entries of one book and one person, at most as many as go at once. */
export function stretches(pending: readonly SavedEntry[]): SavedEntry[][] {
  const all: SavedEntry[][] = [];
  for (const entry of pending) {
    const last = all.at(-1);
    const [head] = last ?? [];
    if (last && head && head.book === entry.book && head.typedBy === entry.typedBy && last.length < maxConcurrency) last.push(entry);
    else all.push([entry]);
  }
  return all;
}

const onTheWire = (e: SavedEntry): unknown => ({
  ...e.entry,
  send: { attempt: e.attempts + 1, ...(e.signature === null ? {} : { signature: e.signature }) },
});

function fateOf(a: Answer): Fate {
  switch (a.as) {
    case 'recorded':
    case 'already-recorded':
      return { as: 'recorded', ...a.receipt, outcome: a.outcome, shown: false };
    case 'waiting':
      return { as: 'waiting', waitingFor: a.waitingFor };
    case 'refused':
      return a.problem === 'fault' ? { as: 'waiting', waitingFor: [] } : refusedFor(a); // a fault is the service's own: nothing for a person to correct
  }
}
