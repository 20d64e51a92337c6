import { useSyncExternalStore } from 'react';

/** A timer that is over and rings until somebody makes it quiet. */
export interface Ring {
  /** What rings and when it was due: due again later, it rings again. */
  readonly id: string;
  readonly to: string;
  readonly name: string;
  readonly where: string;
  /** How long it is over. */
  readonly over: string;
}

const key = 'quiet timers';
let now: readonly Ring[] = [];
const listeners = new Set<() => void>();
const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** What rings now: kept outside the pages, since the question who is there stands in front of all of them and must not cover it. */
export function setRinging(next: readonly Ring[]): void {
  if (now.length === 0 && next.length === 0) return;
  now = next;
  listeners.forEach((tell) => tell());
}
export const useRinging = (): readonly Ring[] => useSyncExternalStore(subscribe, () => now);

/** What somebody made quiet on this device, so that a page that is loaded again does not ring anew. */
export function madeQuiet(): ReadonlySet<string> {
  return new Set((localStorage.getItem(key) ?? '').split('\n'));
}

/** Everything that rings now is quiet from now on; the timers run on. */
export function makeQuiet(): void {
  localStorage.setItem(key, [...madeQuiet(), ...now.map((r) => r.id)].slice(-50).join('\n'));
  setRinging([]);
}
