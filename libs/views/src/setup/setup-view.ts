import type { Setup, SetupStep } from '@bakehouse/contracts';
import { caution, permissionsOf, role, type Permission } from '@bakehouse/kernel';
import type { SetupFacts } from './facts.js';
import { looks, type StepFound } from './looks.js';

/** What a step needs somebody to be allowed to. */
const permissionFor: Readonly<Record<SetupStep, Permission>> = {
  people: 'manage.people',
  tablet: 'manage.access',
  site: 'manage.site',
  places: 'manage.site',
  instruments: 'manage.site',
  suppliers: 'manage.catalogue',
  materials: 'manage.catalogue',
  formula: 'manage.formulas',
  plan: 'manage.plans',
  delivery: 'record',
  opened: 'record',
  dough: 'record',
  load: 'record',
  release: 'record',
};
/** As many as somebody works through at once. */
const maxListed = 12;

/** What a house has and what it lacks, in order, from nothing to its first released batch at a site. Nothing here says that anything is safe. Pure. */
export function setupOf(facts: SetupFacts): Setup {
  const steps = looks.map(([step, look]) => stepOf(facts, step, look(facts)));
  const next = steps.find((s) => !s.done);
  return { site: facts.site, done: next === undefined, next: next?.step ?? null, steps, caution };
}

function stepOf({ people, site }: SetupFacts, step: SetupStep, { has, missing }: StepFound): Setup['steps'][number] {
  const permission = permissionFor[step];
  return {
    step,
    done: missing.length === 0,
    has,
    missing: missing.slice(0, maxListed).map(({ says, about = null }) => ({ says, about })),
    more: Math.max(0, missing.length - maxListed),
    permission,
    roles: role.options.filter((r) => permissionsOf[r].includes(permission)),
    people: people.filter((p) => mayDo(p, site.id, permission)).map(({ id, name }) => ({ person: id, name })),
  };
}

/** Whether somebody may do this at a site, with a PIN where more than a tapped name is asked for. */
export function mayDo(p: SetupFacts['people'][number], site: string, permission: Permission): boolean {
  const here = p.roles.some((r) => (r.site === null || r.site === site) && permissionsOf[r.role].includes(permission));
  return p.leftAt === null && here && (p.hasPin || permission === 'record');
}
