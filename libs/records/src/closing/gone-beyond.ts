import { derivedId, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';
import type { Change, Need, Row, State } from '../base/state.js';
import { subjectType } from '../rows/control.js';
import { letsUse } from '../control/holds-release.js';
import { noLongerAccepted } from '../standing/accepted-part.js';
import { concernNeeds, dispositionsOf } from '../standing/concern.js';
import { movementNeeds } from '../standing/lot-rows.js';
import { targetNeeds, useDeviation, usedIn } from '../stock/used-in.js';

/** What left or was used of a lot within what was accepted then, and is beyond it by a correction. */
export const goneBeyond = z.strictObject({
  /** The departure, or the flow. */
  id,
  /** What it was put into, or the lot itself where it left. */
  subjectType,
  subject: id,
  lot: id,
  name: z.string(),
  at: instant,
});
type GoneBeyond = z.infer<typeof goneBeyond>;

/** What has to be looked for, as far as can be named now, before `beyondNow` can be asked: only where some of the lot was accepted for use. */
export function beyondNeeds(state: State, lot: string): Need[] {
  const first = concernNeeds(state, lot);
  if (!first.every((need) => state.knows(need))) return first;
  const went = dispositionsOf(state, lot).some((d) => letsUse(d.disposition)) ? movementNeeds(state, lot) : [];
  return [...first, ...went, ...(went.length > 0 && went.every((need) => state.knows(need)) ? targetNeeds(state, lot) : [])];
}

/** What went of a lot that a correction of its acceptance no longer accepts. Needs `beyondNeeds`. */
export function beyondNow(state: State, lot: Row<'lot'>, now: Row<'disposition'>): GoneBeyond[] {
  const before = dispositionsOf(state, lot.id).find((d) => d.id === now.id);
  if (!before || !letsUse(before.disposition)) return [];
  return noLongerAccepted(state, lot.id, before, now).flatMap(({ id: gone, at, target }) => {
    const about = target === null ? [{ subjectType: 'lot' as const, subject: lot.id }] : usedIn(state, lot.id, (f) => f.id === gone);
    return about.map((of): GoneBeyond => ({ id: gone, subjectType: of.subjectType, subject: of.subject, lot: lot.id, name: lot.name, at }));
  });
}

/** A deviation about each, as about any food on hold that left or was used. */
export const beyondRows = (root: string, beyond: readonly GoneBeyond[], doneBy: string): Change[] =>
  beyond.map(({ id: gone, subject, lot, ...of }) =>
    useDeviation(derivedId(root, `beyond ${gone}`), { ...of, type: 'held-lot-used', subject, lot: subject === lot ? null : lot, doneBy }),
  );
