import { phrase, type Finding } from '@bakehouse/records';

/** What speaks against food, in a few words. */
export const findingText = ({ code, what }: Pick<Finding, 'code' | 'what'>): string =>
  `${phrase(`finding.${code}`)}${what === null ? '' : `: ${what}`}`;
