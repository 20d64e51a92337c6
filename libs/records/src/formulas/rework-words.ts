import { countText } from '@bakehouse/kernel';
import type { ReworkRule } from '../rows/formula-content.js';

/** What a formula says of rework, a sentence each. Null: it says nothing. */
export function reworkWords(rule: ReworkRule | null): string[] {
  if (rule === null) return ['This formula says nothing of rework: nothing that is put back is held against it.'];
  if (rule.sources.length === 0) return ['Nothing may be put back.'];
  return [
    `May be put back: ${rule.sources.map((s) => s.name).join(', ')}; only what was made here.`,
    ...(rule.maxFlourBp === null ? [] : [`At most ${rule.maxFlourBp / 100} % of the flour, as it is weighed in.`]),
    ...(rule.maxAgeHours === null ? [] : [`At most ${countText(rule.maxAgeHours, 'hour')} old.`]),
    ...(rule.maxTimes === null ? [] : [`The same food at most ${countText(rule.maxTimes, 'time')}.`]),
  ];
}
