import { inOrder, minutesAfter } from '@bakehouse/kernel';
import type { Row } from '@bakehouse/records';
import { loadsOf } from './loads.js';
import { stagesOf } from './stages.js';
import { nameOf, type Lookup } from '../lookup/lookup.js';

export interface TimerView {
  readonly subjectType: 'make' | 'run' | 'load';
  readonly subject: string;
  readonly name: string | null;
  readonly step: Row<'stage'>['step'] | 'bake';
  readonly placeName: string | null;
  readonly since: string;
  /** When it should come out, and when at the latest; null where nobody planned it. */
  readonly due: string | null;
  readonly latest: string | null;
}

/** Everything that is in an oven, prover, retarder, chiller or freezer now: what is due first on top, what nobody planned last. */
export function timersOf(lookup: Lookup, bakeDay: string): TimerView[] {
  const { state } = lookup;
  const ovens = loadsOf(lookup, bakeDay).flatMap((l): TimerView[] =>
    l.now.in
      ? [
          {
            subjectType: 'load',
            subject: l.id,
            name: l.name,
            step: 'bake',
            placeName: l.deckName ?? l.ovenName,
            since: l.now.since,
            due: l.now.due,
            latest: null,
          },
        ]
      : [],
  );
  const makes = inOrder(state.find('make', 'bakeDay', bakeDay));
  const stages = makes.flatMap((make) => [
    ...staying(lookup, 'make', make.id, make),
    ...inOrder(state.find('run', 'make', make.id)).flatMap((run) => staying(lookup, 'run', run.id, make)),
  ]);
  return [...ovens, ...stages].sort((a, b) => ((a.due ?? '9') < (b.due ?? '9') ? -1 : (a.due ?? '9') > (b.due ?? '9') ? 1 : 0));
}

function staying(lookup: Lookup, subjectType: 'make' | 'run', subject: string, make: Row<'make'>): TimerView[] {
  const steps = lookup.state.get('formulaVersion', make.formulaVersion)?.content.steps ?? [];
  return stagesOf(lookup, subject)
    .filter((s) => s.to === null)
    .map((s): TimerView => {
      const planned = steps.find((step) => step.type === s.step);
      const after = (minutes: number | null | undefined): string | null =>
        minutes === null || minutes === undefined ? null : minutesAfter(s.from, minutes);
      return {
        subjectType,
        subject,
        name: nameOf(lookup, subjectType, subject),
        step: s.step,
        placeName: s.placeName,
        since: s.from,
        due: after(planned?.minutes),
        latest: after(planned?.maxMinutes),
      };
    });
}
