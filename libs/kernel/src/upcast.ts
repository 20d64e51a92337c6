import type * as z from 'zod';

type Step = { readonly success: true; readonly data: unknown } | { readonly success: false; readonly error: z.ZodError };
/** From one version to the next, or what is wrong with the old one: anybody may send an old version. */
export type Upcaster = (old: unknown) => Step;
/** By the version that each starts from. */
export type Upcasters = Readonly<Record<number, Upcaster>>;

/** One step: what the old version looked like, and what it says in the next. */
export const upcaster =
  <Old extends z.ZodType>(old: Old, next: (read: z.output<Old>) => unknown): Upcaster =>
  (stored) => {
    const read = old.safeParse(stored);
    return read.success ? { success: true, data: next(read.data) } : { success: false, error: read.error };
  };

/** Every step from one version to another, in order. */
export function inSteps(upcasters: Upcasters, from: number, to: number, stored: unknown): Step {
  let current: Step = { success: true, data: stored };
  for (let version = from; version < to && current.success; version += 1) {
    const step = upcasters[version];
    if (!step) throw new Error(`no upcaster from version ${version}`);
    current = step(current.data);
  }
  return current;
}
