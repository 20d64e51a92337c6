import type { MaterialList, Setup, SetupStep } from '@bakehouse/contracts';
import { countText, permissionsOf, type Permission } from '@bakehouse/kernel';
import type { DraftInHand, SetupFacts } from './facts.js';

export interface Lack {
  readonly says: string;
  readonly about?: Setup['steps'][number]['missing'][number]['about'];
}
/** What is there of one step, and what is not. */
export interface StepFound {
  readonly has: string | null;
  readonly missing: readonly Lack[];
}

const names = (list: readonly (string | null)[], most = 6): string | null => {
  const known = list.map((n) => n ?? 'name withheld');
  if (known.length === 0) return null;
  return known.length <= most ? known.join(', ') : `${known.slice(0, most).join(', ')} and ${known.length - most} more`;
};
const unless = (there: boolean, says: string, about?: Lack['about']): Lack[] => (there ? [] : [{ says, ...(about && { about }) }]);

function where({ details: { address, authority } }: SetupFacts): StepFound {
  return {
    has: names([address, authority?.name].flatMap((known) => known ?? [])),
    missing: [
      ...unless(address !== null, 'Where it is: the address that stands on papers'),
      ...unless(authority !== null, 'The local food-safety authority: who is informed first when food may hurt people'),
      ...unless(authority === null || authority.phone !== null, 'The telephone number of that authority'),
    ],
  };
}

function people({ people: all, site }: SetupFacts): StepFound {
  const here = all.filter((p) => p.leftAt === null && p.roles.some((r) => r.site === null || r.site === site.id));
  const able = (permission: Permission): boolean =>
    here.some(
      (p) => p.hasPin && p.roles.some((r) => (r.site === null || r.site === site.id) && permissionsOf[r.role].includes(permission)),
    );
  return {
    has: names(here.map((p) => p.name)),
    missing: [
      ...unless(able('record'), 'Somebody who bakes, with a PIN: a baker, a manager or a food-safety lead'),
      ...unless(able('manage.formulas'), 'Somebody who approves formulas, with a PIN: a manager or a food-safety lead'),
      ...unless(able('manage.plans'), 'A food-safety lead with a PIN: nobody else puts a plan in force'),
      ...here.filter((p) => !p.hasPin).map((p) => ({ says: `A PIN for ${p.name ?? 'somebody whose name is withheld'}` })),
    ],
  };
}

const tablet = ({ tablets }: SetupFacts): StepFound => ({
  has: names(tablets),
  missing: unless(tablets.length > 0, 'A tablet that is enrolled at this site'),
});

function places({ places: all }: SetupFacts): StepFound {
  const inUse = all.filter((p) => p.outOfUse === null);
  const any = (...types: readonly (typeof all)[number]['type'][]): boolean => inUse.some((p) => types.includes(p.type));
  return {
    has: names(inUse.map((p) => p.name)),
    missing: [
      ...unless(any('station', 'mixer'), 'Where dough is made: a mixer or a station'),
      ...unless(any('oven'), 'What bakes: an oven'),
      ...unless(any('fridge', 'chiller'), 'What keeps food cold: a fridge or a chiller'),
    ],
  };
}

function instruments({ instruments: all }: SetupFacts): StepFound {
  const inUse = all.filter((i) => i.outOfUse === null);
  const warm = inUse.filter((i) => i.unit === 'degC');
  return {
    has: names(inUse.map((i) => i.name)),
    missing: [
      ...unless(warm.length > 0, 'What measures temperature: a probe'),
      ...warm
        .filter((i) => i.lastCheck === null)
        .map((i) => ({
          says: `The first check of ${i.name}, in melting ice or boiling water`,
          about: { type: 'instrument', id: i.id } as const,
        })),
    ],
  };
}

const suppliers = ({ suppliers: all }: SetupFacts): StepFound => ({
  has: names(all),
  missing: unless(all.length > 0, 'Whom the flour comes from: a supplier'),
});

/** Once a formula is in force, what it uses has to be known; before, everything that is bought. */
function materials({ materials: all, formulas, used }: SetupFacts): StepFound {
  const bought = all.filter((m) => m.by === 'specification' && m.type !== 'packaging');
  const asked = formulas.some(isInForce) ? bought.filter((m) => used.has(m.material)) : bought;
  return {
    has: bought.length === 0 ? null : countText(bought.length, 'material'),
    missing: [
      ...unless(bought.some(isFlour), 'Flour: a material that is marked as flour'),
      ...asked
        .filter((m) => m.allergens.checkedSince === null)
        .map((m) => ({ says: `What ${m.name} contains: nobody has checked it`, about: { type: 'material', id: m.material } as const })),
    ],
  };
}

const isFlour = (m: MaterialList[number]): boolean => m.specifications.some((s) => s.inForce && s.flour);
const isInForce = (f: SetupFacts['formulas'][number]): boolean => f.retired === null && f.products.length > 0;

function formula({ formulas, drafts }: SetupFacts): StepFound {
  const inForce = formulas.filter(isInForce);
  return {
    has: names(inForce.map((f) => f.name)),
    missing: inForce.length > 0 ? [] : waiting('formula with a product', 'formula-draft', drafts.formula),
  };
}

const plan = ({ plan: inForce, drafts }: SetupFacts): StepFound => ({
  has: inForce,
  missing: inForce === null ? waiting('plan for this site', 'plan-draft', drafts.plan) : [],
});

/** Drafts that nobody has approved are named as that and as nothing more. */
const waiting = (what: string, type: 'formula-draft' | 'plan-draft', drafts: readonly DraftInHand[]): Lack[] =>
  drafts.length === 0
    ? [{ says: `An approved ${what}: write a draft, or take a starter that nobody has approved`, about: { type: 'starters', id: null } }]
    : drafts.map(({ id, name }) => ({
        says: `An approved ${what}: “${name === '' ? 'without a name yet' : name}” is a draft that nobody has approved`,
        about: { type, id },
      }));

const first =
  (what: keyof SetupFacts['happened'], says: string): ((facts: SetupFacts) => StepFound) =>
  ({ happened }) => ({ has: null, missing: unless(happened[what], says) });

/** Every step with how it is looked at, in the order in which they are done. */
export const looks: readonly (readonly [SetupStep, (facts: SetupFacts) => StepFound])[] = [
  ['people', people],
  ['tablet', tablet],
  ['site', where],
  ['places', places],
  ['instruments', instruments],
  ['suppliers', suppliers],
  ['materials', materials],
  ['formula', formula],
  ['plan', plan],
  ['delivery', first('delivery', 'Goods that came, with their lots: from whom, and how much')],
  ['opened', first('opened', 'A lot that was opened where dough is made: a mix takes what is open there')],
  ['dough', first('dough', 'A dough that was started at the table')],
  ['load', first('load', 'A load that went into the oven')],
  ['release', first('release', 'A batch that was counted out and released')],
];
