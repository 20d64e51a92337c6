import type { Setup, SetupStep } from '@bakehouse/contracts';
import { office } from '../../shared/office-paths';
import { paths } from '../../shared/night/paths';

interface StepWords {
  readonly title: string;
  readonly to: string;
  readonly key: string;
  /** What helps beside it. */
  readonly also?: readonly (readonly [to: string, text: string])[];
}

/** What each step is called, and where it is done. */
export const stepWords: Readonly<Record<SetupStep, StepWords>> = {
  people: { title: 'People, with their PINs', to: office.people, key: 'People' },
  tablet: { title: 'A tablet for the table', to: office.people, key: 'Tablets' },
  site: { title: 'The site, with its authority', to: office.site, key: 'This site' },
  places: { title: 'Places: mixer, oven, fridge', to: office.places, key: 'Places' },
  instruments: { title: 'What is measured with', to: office.places, key: 'Probes' },
  suppliers: {
    title: 'Suppliers',
    to: office.parties,
    key: 'Suppliers',
    also: [[office.partiesSheet, 'From a sheet']],
  },
  materials: {
    title: 'Materials, with their allergens',
    to: office.materials,
    key: 'Materials',
    also: [[office.materialsSheet, 'From a sheet']],
  },
  formula: { title: 'A formula, approved', to: office.drafts, key: 'Drafts', also: [[office.starters, 'Starters']] },
  plan: { title: 'A plan, in force', to: office.planDrafts, key: 'Drafts of the plan', also: [[office.starters, 'Starters']] },
  delivery: { title: 'The first delivery', to: `${office.goods}/new`, key: 'Goods in' },
  opened: { title: 'The first sack, opened', to: paths.open, key: 'Open lots' },
  dough: { title: 'The first dough', to: paths.start, key: 'Start a dough' },
  load: { title: 'The first load', to: paths.loadNew, key: 'Into the oven' },
  release: { title: 'The first released batch', to: paths.today, key: 'Today’s bake' },
};

type About = NonNullable<Setup['steps'][number]['missing'][number]['about']>;

/** Where one thing that is missing is put right. */
export function aboutPath({ type, id }: About): string {
  if (type === 'instrument') return paths.probeCheck;
  if (type === 'starters' || id === null) return office.starters;
  return { material: office.material, 'formula-draft': office.draft, 'plan-draft': office.planDraft }[type](id);
}

export const doneText = ({ steps }: Setup): string => `${steps.filter((s) => s.done).length} of ${steps.length} steps are done`;
