import { heading, type Node } from '../layout/index.js';

/** The sections behind the first page, in their order: what matters first, the evidence behind. Wide tables lie on their side, together. */
export const sectionTitles = {
  recalls: 'Recalls',
  onHold: 'On hold now',
  held: 'Holds placed by hand or lifted',
  notTaken: 'Readings not taken',
  deviations: 'Deviations and corrective actions',
  decisions: 'Decided about food',
  waste: 'Thrown away',
  batches: 'Batches and their release',
  goods: 'Goods received',
  plan: 'Plan in force',
  made: 'Made',
  loads: 'Baked and cooled: loads',
  otherReadings: 'Other readings',
  probes: 'Thermometers checked',
  cleanDowns: 'Cleaned down',
  corrections: 'Corrections',
  seals: 'The seals, and how to check them',
} as const;
export type Section = keyof typeof sectionTitles;
export const sections: readonly Section[] = [
  'recalls',
  'onHold',
  'held',
  'notTaken',
  'deviations',
  'decisions',
  'waste',
  'batches',
  'goods',
  'plan',
  'made',
  'loads',
  'otherReadings',
  'probes',
  'cleanDowns',
  'corrections',
  'seals',
];

/** The heading of a section, whose page the contents name. */
export const sectionHead = (section: Section, of: Pick<Node, 'pageBreak' | 'pageOrientation'> = {}, more = ''): Node =>
  heading(`${sectionTitles[section]}${more}`, { id: section, ...of });

export const lyingDown = { pageBreak: 'before', pageOrientation: 'landscape' } as const;
export const standingUp = { pageBreak: 'before', pageOrientation: 'portrait' } as const;
