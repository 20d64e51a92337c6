/** What a reading counts as where a period is summed up: one that is in doubt says nothing, whatever its verdict was. */
export type CountsAs = 'within' | 'outside' | 'doubtful' | 'without-limit';

export function countsAs(verdict: string, inDoubt: boolean): CountsAs {
  if (inDoubt || verdict === 'unsure' || verdict === 'not-believable') return 'doubtful';
  return verdict === 'within' || verdict === 'outside' ? verdict : 'without-limit';
}
