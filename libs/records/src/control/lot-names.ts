import type { Row } from '../base/state.js';

const shown = 20;

/** Lots as a refusal names them: by name and code, the first ones where there are many. */
export function lotNames(lots: readonly Row<'lot'>[]): string {
  const names = lots.slice(0, shown).map(({ name, code }) => (code === null ? name : `${name}, ${code}`));
  return [...names, ...(lots.length > shown ? [`and ${lots.length - shown} more`] : [])].join('; ');
}
