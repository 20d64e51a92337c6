import { permissionsOf, role, type Permission } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { eitherOf } from './either-of';
import { Mark } from './mark';

const does: Readonly<Record<Permission, string>> = {
  view: 'look at the records',
  record: 'record',
  'decide.goods': 'decide about goods and put food on hold',
  'decide.exception': 'decide about food on hold',
  'decide.recall': 'open and decide recalls',
  'manage.site': 'change the site, its places and its tablets',
  'manage.catalogue': 'change the catalogue',
  'manage.formulas': 'write and approve formulas',
  'manage.plans': 'write and approve plans',
  'manage.people': 'let people in and give roles',
  'manage.access': 'let inspectors look',
  inspect: 'look as an inspector',
  export: 'take records away',
  withhold: 'withhold records',
  service: 'do what the service does by itself',
};

/** A baker, a manager or a food-safety lead. */
const rolesWith = (permission: Permission): string =>
  eitherOf(
    role.options
      .filter((r) => permissionsOf[r].includes(permission))
      .map((r) => `a${r === 'administrator' || r === 'inspector' ? 'n' : ''} ${phrase(`role.${r}`)}`),
  );

/** What a page does not offer to the person who looks at it, and who does it. */
export function WhoMay({ to }: { readonly to: readonly Permission[] }) {
  return (
    <p className="who-may" role="note">
      <Mark shape="ring" tone="calm" /> {to.includes('record') ? <strong>You may look. </strong> : null}
      {to.map((p) => `Only ${rolesWith(p)} may ${does[p]}.`).join(' ')}
    </p>
  );
}
