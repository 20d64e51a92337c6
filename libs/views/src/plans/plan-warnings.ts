import { cookWarning, type Row } from '@bakehouse/records';

export interface PlanWarning {
  readonly point: string;
  readonly name: string;
  readonly text: string;
}

/** What a competent person has to look at in a plan, a draft or one in force: a signature does not make a low limit usual. */
export const planWarnings = (points: Row<'planVersion'>['content']['points']): PlanWarning[] =>
  points.flatMap((point) => {
    const text = cookWarning(point);
    return text === null ? [] : [{ point: point.key, name: point.name, text }];
  });

/** Over the warnings of a version: who signed it with them. */
export const signedWithText = (signedBy: string | null): string =>
  `Low limits, signed all the same${signedBy === null ? '' : ` by ${signedBy}`}`;
