import { derivedId } from '@bakehouse/kernel';
import type * as z from 'zod';
import { namedIn, type PutInOutcome, type PutIn as NamedLine } from './put-in.js';
import type { Change, Need, State } from '../base/state.js';
import { putInto, reallyNeeds, reallyThat, reworkRuleOf, type PutIn } from '../standing/put-back.js';
import { againstRule, reworkLineNeeds, reworkTexts, ruledMake } from '../standing/rework.js';
import type { weighedType } from '../rows/stock.js';

type Line = NamedLine & { readonly type: z.infer<typeof weighedType> };
type Amount = Pick<PutIn['flow'], 'mg' | 'pieces'> & { readonly name?: string };

/** Lines that are about to be recorded, as they will have gone in. `read`: what is known of each lot of them, in their order. */
export function aboutToGoIn(
  state: State,
  lines: readonly Line[],
  of: { readonly root: string; readonly at: string },
  read: readonly Amount[],
): PutIn[] {
  return namedIn(lines).flatMap(({ line, at: nth, lot, among }, i): PutIn[] => {
    const { type } = lines[nth] ?? { type: 'ingredient' };
    const anyOf = among.length > 1 ? derivedId(of.root, `any ${nth}`) : null;
    const { mg, pieces, name }: Amount = read[i] ?? { mg: null, pieces: null };
    const flow = {
      id: derivedId(of.root, `flow ${i}`),
      source: lot ?? derivedId(of.root, `placeholder ${i}`),
      mg,
      pieces,
      type,
      anyOf,
      at: of.at,
    };
    const unnamed = { id: flow.source, material: line.material, name: '', type: 'placeholder', delivery: null, at: of.at } as const;
    const really = lot === null ? unnamed : reallyThat(state, lot, null);
    return really ? [{ flow, lot: { ...really, name: name ?? really.name } }] : [];
  });
}

/** What has to be looked for, as far as can be named now, before `reworkBy` can be asked. A formula that says nothing of rework costs nothing. */
export function linesNeeds(state: State, make: string, lines: readonly Line[], at: string): Need[] {
  const rule = reworkRuleOf(state, make);
  if (rule === null) return [];
  const named = namedIn(lines).flatMap(({ lot }) => (lot === null ? [] : reallyNeeds(state, lot)));
  if (!named.every((need) => state.knows(need))) return named;
  const put = aboutToGoIn(state, lines, { root: make, at }, []).filter(({ lot }) => lot.type !== 'placeholder' || lot.delivery !== null);
  return [...named, ...put.flatMap((line) => reworkLineNeeds(state, rule, line))];
}

interface Recorded {
  readonly root: string;
  readonly at: string;
  /** How many lots the content named that this one replaces. */
  readonly before: number;
  readonly lines: readonly Line[];
  readonly read: readonly PutInOutcome[];
}

/** What is against the rule of a make's formula once these lines are in, in words; null where nothing is. */
export function reworkBy(state: State, make: string, { root, at, before, lines, read }: Recorded): string | null {
  const found = ruledMake(state, make);
  if (!found) return null;
  const own = new Set(Array.from({ length: before }, (_, i) => derivedId(root, `flow ${i}`)));
  const others = putInto(state, make).filter(({ flow }) => !own.has(flow.id));
  const now = aboutToGoIn(state, lines, { root, at }, read);
  return reworkTexts(againstRule(state, { ...found, at: null }, [...others, ...now])) || null;
}

/** The deviation about it, on the make. It holds nothing itself: what is against the rule does, as long as the records say so. */
export const reworkDeviation = (
  rework: string | null,
  { root, make, at, doneBy }: { readonly root: string; readonly make: string; readonly at: string; readonly doneBy: string },
): Change[] =>
  rework === null
    ? []
    : [
        {
          in: 'deviation',
          id: derivedId(root, 'rework'),
          row: {
            subjectType: 'make',
            subject: make,
            type: 'rework-against-rule',
            class: 'ccp',
            summary: rework,
            holds: false,
            point: null,
            doneBy,
            lot: null,
            at,
          },
        },
      ];
