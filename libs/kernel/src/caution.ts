/** Stands wherever a limit, a critical verdict, a label or a recall is shown. */
export const caution =
  'Limits, verdicts and scopes shown here must be validated by a competent person; your local food-safety authority’s rules come first.';
