import type { Difference } from '@bakehouse/kernel';

/** What differs, in words: old, then new. */
export function differenceText(
  { path, type, before, after }: Difference,
  place: string,
  value: (path: readonly string[], of: unknown) => string,
): string {
  switch (type) {
    case 'added':
      return `${place}: put in, ${value(path, after)}`;
    case 'removed':
      return `${place}: taken out, it was ${value(path, before)}`;
    case 'moved':
      return `${place}: in another order`;
    case 'changed':
      return `${place}: ${value(path, before)} → ${value(path, after)}`;
  }
}
