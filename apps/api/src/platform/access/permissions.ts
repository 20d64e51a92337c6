import { permissionsOf, type Permission, type Role } from '@bakehouse/kernel';

/** A role that somebody holds now, at one site or at every site of the organisation (null). */
export interface RoleHeld {
  readonly role: Role;
  readonly site: string | null;
}

/** How somebody signed on: by tapping a name on an enrolled tablet, or with a PIN. */
export type Strength = 'tapped' | 'pin';

/** A tapped name records facts, looks, and sets goods aside or takes them in; whatever else decides, manages or leaves the house wants the PIN. */
const keptWhenTapped: ReadonlySet<Permission> = new Set<Permission>(['view', 'record', 'decide.goods']);

/** Formulas, materials and plans belong to the organisation: a person who may view any one site may view them. */
const reachesUp: ReadonlySet<Permission> = new Set<Permission>(['view', 'inspect']);

/** What somebody may do at a site, or with what belongs to the organisation (site null). Pure. */
export function permissionsFrom(held: readonly RoleHeld[], site: string | null, strength: Strength): ReadonlySet<Permission> {
  const all = held.flatMap((h) => {
    if (h.site === null || h.site === site) return permissionsOf[h.role];
    return site === null ? permissionsOf[h.role].filter((p) => reachesUp.has(p)) : [];
  });
  return new Set(strength === 'pin' ? all : all.filter((p) => keptWhenTapped.has(p)));
}
