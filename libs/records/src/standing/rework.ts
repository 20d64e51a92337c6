import { countText, minutesText } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import type { FormulaContent, ReworkRule } from '../rows/formula-content.js';
import { clearSince } from './links.js';
import { isUnnamed } from './not-known.js';
import { isRework, putInto, putIntoNeeds, reworkRuleOf, ruleNeeds, type PutIn } from './put-back.js';
import { oldestNeeds, oldestOf, tooOldBefore } from './rework-age.js';
import { flourIn, flourNeeds, massNeeds, massOfLines, shareAbove } from './rework-share.js';
import { countsSince, timesNeeds, timesPutBack } from './rework-times.js';

/** What is against the rule of a formula about what may be put back into it. */
export type ReworkTrouble = { readonly name: string } & (
  | { readonly type: 'source'; readonly allowed: readonly string[] }
  /** Nothing of it was made here, or nobody knows which lot it was. */
  | { readonly type: 'not-own' | 'lot-not-known' }
  | { readonly type: 'age'; readonly maxHours: number; readonly minutes: number | null }
  | { readonly type: 'times'; readonly maxTimes: number }
  | { readonly type: 'share'; readonly maxBp: number; readonly bp: number | null; readonly certain: boolean }
);

/**
 * What of the lines that went into a make is against the rule of its formula: of each lot where it is from, how old it is and how often it was put back; of all of them how much
 * it is of the flour. What cannot be shown to be within is against it. Exactly at a limit is within. Needs `reworkNeeds`, and `reworkLineNeeds` of lines that are not recorded.
 */
export function againstRule(
  state: State,
  of: { readonly make: Row<'make'>; readonly content: FormulaContent; readonly rule: ReworkRule; readonly at: string | null },
  lines: readonly PutIn[],
): ReworkTrouble[] {
  const { make, content, rule, at } = of;
  const isBack = ({ flow, lot }: PutIn): boolean => isRework(flow.type, lot.material, rule);
  const back = lines.filter(isBack);
  if (back.length === 0) return [];
  const name = [...new Set(back.map((l) => l.lot.name))].sort().join(', ');
  const each = new Map(back.flatMap((line) => aboutLot(state, rule, line, at).map((t) => [JSON.stringify(t), t] as const)));
  const { maxFlourBp: maxBp } = rule;
  const flour =
    maxBp === null
      ? null
      : flourIn(
          state,
          make,
          content,
          lines.filter((l) => !isBack(l)),
          at,
        );
  const share = maxBp === null || flour === null ? null : shareAbove(massOfLines(state, back), flour, maxBp);
  return [
    ...[...each].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, trouble]) => trouble),
    ...(maxBp === null || share === null ? [] : [{ type: 'share', name, maxBp, ...share } as const]),
  ];
}

function aboutLot(state: State, rule: ReworkRule, { flow, lot }: PutIn, at: string | null): ReworkTrouble[] {
  const { name } = lot;
  const found: ReworkTrouble[] = [];
  if (!rule.sources.some((s) => s.material === lot.material))
    found.push({ type: 'source', name, allowed: rule.sources.map((s) => s.name) });
  if (isUnnamed(lot) || lot.type === 'withdrawn') return [...found, { type: 'lot-not-known', name }];
  if (lot.type === 'received' || lot.type === 'placeholder') return [...found, { type: 'not-own', name }];
  const { maxAgeHours: maxHours, maxTimes } = rule;
  if (maxHours !== null) {
    const before = tooOldBefore(flow.at, maxHours);
    const { made, unknown } = oldestOf(state, lot, before, at);
    const isOld = made !== null && made < before;
    const minutes = isOld ? Math.ceil((Date.parse(flow.at) - Date.parse(made)) / 60_000) : null;
    if (isOld || unknown || made === null) found.push({ type: 'age', name, maxHours, minutes });
  }
  if (maxTimes !== null && timesPutBack(state, flow.source, { since: countsSince(flow.at), most: maxTimes, at }) > maxTimes)
    found.push({ type: 'times', name, maxTimes });
  return found;
}

/** What went into a make against the rule of its formula, as known at an instant or now; nothing where that says nothing of rework. Needs `reworkNeeds`. */
export function reworkTroubles(state: State, lot: string, at: string | null = null): ReworkTrouble[] {
  const found = ruledMake(state, lot);
  if (!found || !reworkNeeds(state, lot).every((need) => state.knows(need))) return [];
  return againstRule(state, { ...found, at }, putInto(state, lot, at));
}

/** A make by a formula that says something of rework. */
export function ruledMake(state: State, lot: string) {
  const rule = reworkRuleOf(state, lot);
  const make = rule && state.get('make', lot);
  const content = make && state.get('formulaVersion', make.formulaVersion)?.content;
  return rule && make && content ? { make, rule, content } : undefined;
}

/** What has to be looked for, as far as can be named now, before `reworkTroubles` can be asked of a lot. A formula that says nothing of rework costs the look at it alone. */
export function reworkNeeds(state: State, lot: string): Need[] {
  if (clearSince(state, lot) !== null) return [];
  const own = ruleNeeds(state, lot);
  const rule = reworkRuleOf(state, lot);
  if (rule === null) return own;
  const into = putIntoNeeds(state, lot);
  const lines = into.every((need) => state.knows(need)) ? putInto(state, lot) : [];
  return [...own, ...into, ...flourNeeds(lot), ...lines.flatMap((line) => reworkLineNeeds(state, rule, line))];
}

/** The same of one line that went into it, or is about to. */
export function reworkLineNeeds(state: State, rule: ReworkRule, line: PutIn): Need[] {
  const { flow, lot } = line;
  if (!isRework(flow.type, lot.material, rule)) return massNeeds(state, line);
  return [
    ...massNeeds(state, line),
    ...(rule.maxAgeHours === null ? [] : oldestNeeds(state, flow.source, tooOldBefore(flow.at, rule.maxAgeHours))),
    ...(rule.maxTimes === null ? [] : timesNeeds(state, flow.source, countsSince(flow.at))),
  ];
}

/** When the first of what is against the rule, or may be, was put in. */
export const reworkSince = (state: State, lot: string, at: string | null): string | undefined => {
  const rule = reworkRuleOf(state, lot);
  return putInto(state, lot, at)
    .filter((l) => isRework(l.flow.type, l.lot.material, rule))
    .map((l) => l.flow.at)
    .sort()[0];
};

/** The concern that something went into a make against the rule of its formula: one, whatever it is. */
export const reworkId = (make: string): string => `rework-against-rule ${make}`;

const percentText = (bp: number): string => `${bp / 100} %`;

/** What is against the rule, in words: what may be, then what is. */
export function reworkText(t: ReworkTrouble): string {
  switch (t.type) {
    case 'source':
      return t.allowed.length === 0
        ? `${t.name}: nothing may be put back here`
        : `${t.name}: only ${t.allowed.join(', ')} may be put back here`;
    case 'not-own':
      return `${t.name}: only what was made here may be put back; this came from outside`;
    case 'lot-not-known':
      return `${t.name}: nobody knows which lot it was, so not how old it is either`;
    case 'age':
      return `${t.name}: at most ${countText(t.maxHours, 'hour')} old; ${t.minutes === null ? 'how old this is, nobody can say' : `this is ${minutesText(t.minutes)}`}`;
    case 'times':
      return `${t.name}: put back at most ${countText(t.maxTimes, 'time')}; this is once more`;
    case 'share':
      return `${t.name}: at most ${percentText(t.maxBp)} of the flour; ${shareText(t)}`;
  }
}

const shareText = ({ bp, certain }: { readonly bp: number | null; readonly certain: boolean }): string => {
  if (bp === null) return 'how much this makes cannot be said';
  return certain ? `this makes ${percentText(bp)}` : `this may make ${percentText(bp)}`;
};

export const reworkTexts = (troubles: readonly ReworkTrouble[]): string => troubles.map(reworkText).join('; ');
