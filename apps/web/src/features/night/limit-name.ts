import type { PointContent } from '@bakehouse/records';

const names: Readonly<Record<PointContent['class'], string>> = {
  ccp: 'Critical limit',
  oprp: 'Control limit',
  'process-check': 'Process check',
};

/** What a limit weighs, in words. */
export const limitName = (of: PointContent['class']): string => names[of];
