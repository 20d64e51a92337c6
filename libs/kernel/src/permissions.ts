import * as z from 'zod';

/** What a person may do, by name. Every route and every kind declares one, or nothing starts. */
export const permission = z.enum([
  'view',
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
  'withhold',
  'service',
]);
export type Permission = z.infer<typeof permission>;

export const role = z.enum(['baker', 'manager', 'viewer', 'food-safety-lead', 'administrator', 'inspector']);
export type Role = z.infer<typeof role>;

/** Looking from outside is an inspector's alone. To withhold is no role's: the command that does it records it; nor is what the service records by itself. */
const everything = permission.options.filter((p) => p !== 'inspect' && p !== 'withhold' && p !== 'service');

/** Which permissions a role brings. One baker alone holds several roles; self-review is allowed and said so. */
export const permissionsOf: Readonly<Record<Role, readonly Permission[]>> = {
  baker: ['view', 'record', 'decide.goods'],
  manager: everything.filter((p) => p !== 'manage.plans' && p !== 'manage.people'),
  viewer: ['view'],
  'food-safety-lead': [
    'view',
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
  administrator: ['view', 'manage.people', 'manage.access', 'manage.site', 'manage.catalogue'],
  inspector: ['inspect'],
};
