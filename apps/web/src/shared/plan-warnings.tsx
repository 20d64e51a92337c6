import type { PlanWarning } from '@bakehouse/records';
import { signedWithText } from '@bakehouse/views';
import { Caution, Notice, StateWord } from '../ui';

export function WarningList({ of }: { readonly of: readonly PlanWarning[] }) {
  return (
    <ul className="to-do">
      {of.map(({ point, name, text }) => (
        <li key={point}>
          <StateWord shape="diamond" tone="ask">
            {name}
          </StateWord>{' '}
          {text}
        </li>
      ))}
    </ul>
  );
}

/** What was to be looked at before a plan was signed stays beside it, with who signed: the limit is as low as it was. */
export function SignedWith({ warnings, signedBy }: { readonly warnings: readonly PlanWarning[]; readonly signedBy: string | null }) {
  if (warnings.length === 0) return null;
  return (
    <Notice tone="ask" title={signedWithText(signedBy)}>
      <WarningList of={warnings} />
      <Caution />
    </Notice>
  );
}
