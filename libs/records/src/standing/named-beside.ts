import { refuse, type Refused } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import { letsUse } from '../control/holds-release.js';
import type { Finding } from '../rows/baking.js';
import { asFindings } from './as-findings.js';
import { endsByDisposition } from './concern.js';
import { everReaching, standingNeeds } from './standings.js';

interface Naming {
  readonly concerns: readonly string[];
}

/** Whether a decision is about more than its deviation. */
export const namesMore = ({ concerns }: Naming): boolean => concerns.length > 0;

/** What has to be looked for before `namedBeside` can be asked: nothing where nothing is named. */
export const besideNeeds = (state: State, { concerns }: Naming, lot: string): Need[] =>
  namesMore({ concerns }) ? standingNeeds(state, [lot]) : [];

type Beside = Refused | { readonly ok: true; readonly findings: readonly Finding[] };

/** What it names beside its deviation, as it stands: only what holds the food, or did until somebody decided, and has no act of its own by which it ends. */
export function namedBeside(
  p: Naming & Pick<Row<'disposition'>, 'disposition'>,
  { state, subject, at }: { readonly state: State; readonly subject: string; readonly at: string },
): Beside {
  if (!namesMore(p)) return { ok: true, findings: [] };
  if (!letsUse(p.disposition)) return refuse('not-for-this-decision', 'payload.concerns', 'none where the food is not used');
  const holding = everReaching(state, subject, at).filter(({ concern }) => endsByDisposition(concern.type));
  const findings = asFindings(state, holding).filter((f) => f.concern !== null && p.concerns.includes(f.concern));
  const found = new Set(findings.map((f) => f.concern));
  const stray = p.concerns.findIndex((concern) => !found.has(concern));
  return stray < 0
    ? { ok: true, findings }
    : refuse(
        'not-for-this-decision',
        `payload.concerns.${stray}`,
        'what holds this food and has no act of its own: a hold is lifted, a case, another deviation and refused goods are decided on where they are, and what does not add up is put right in the records',
      );
}
