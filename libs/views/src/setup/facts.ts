import type { FormulaList, MaterialList, PeopleList, PlaceList, InstrumentList, Setup, SiteDetails } from '@bakehouse/contracts';

/** A draft that somebody is working on. */
export interface DraftInHand {
  readonly id: string;
  readonly name: string;
}

/** Everything that the guide from nothing to a first released batch is made of. */
export interface SetupFacts {
  readonly site: Setup['site'];
  /** What is written down about the site: where it is, and its authority. */
  readonly details: Pick<SiteDetails, 'address' | 'authority'>;
  readonly people: readonly Pick<PeopleList[number], 'id' | 'name' | 'leftAt' | 'hasPin' | 'roles'>[];
  readonly tablets: readonly string[];
  readonly places: readonly Pick<PlaceList[number], 'name' | 'type' | 'outOfUse'>[];
  readonly instruments: readonly Pick<InstrumentList[number], 'id' | 'name' | 'unit' | 'outOfUse' | 'lastCheck'>[];
  readonly suppliers: readonly string[];
  readonly materials: MaterialList;
  readonly formulas: FormulaList;
  /** Materials that the formulas in force use, those put on their products too. */
  readonly used: ReadonlySet<string>;
  /** Drafts, as far as the person who asks may see them. */
  readonly drafts: { readonly formula: readonly DraftInHand[]; readonly plan: readonly DraftInHand[] };
  /** The plan that is in force at the site. */
  readonly plan: string | null;
  readonly happened: Readonly<Record<'delivery' | 'opened' | 'dough' | 'load' | 'release', boolean>>;
}
