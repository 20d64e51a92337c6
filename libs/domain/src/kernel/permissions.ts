import * as z from 'zod';

/** What a person may do, by name. Every route and every kind declares one, or nothing starts. */
export const permission = z.enum([
  'look',
  'record',
  'decide.goods',
  'decide.exception',
  'decide.recall',
  'manage.site',
  'manage.catalogue',
  'manage.formulas',
  'manage.plans',
  'manage.people',
  'manage.access',
  'inspect',
  'export',
]);
export type Permission = z.infer<typeof permission>;

export const role = z.enum(['bakes', 'runs-it', 'looks', 'food-safety-lead', 'administrator', 'inspector']);
export type Role = z.infer<typeof role>;

const everything = permission.options.filter((p) => p !== 'inspect');

/** Which permissions a role brings. One baker alone holds several roles; self-review is allowed and said so. */
export const permissionsOf: Readonly<Record<Role, readonly Permission[]>> = {
  bakes: ['look', 'record', 'decide.goods'],
  'runs-it': everything.filter((p) => p !== 'manage.plans' && p !== 'manage.people'),
  looks: ['look'],
  'food-safety-lead': [
    'look',
    'record',
    'decide.goods',
    'decide.exception',
    'decide.recall',
    'manage.plans',
    'manage.formulas',
    'manage.catalogue',
    'manage.access',
    'export',
  ],
  administrator: ['look', 'manage.people', 'manage.access', 'manage.site', 'manage.catalogue'],
  inspector: ['inspect'],
};
