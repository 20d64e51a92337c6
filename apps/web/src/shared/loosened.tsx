import type { LoosenedAsApproved } from '@bakehouse/records';
import { loosenedText, looseningBasisText } from '@bakehouse/views';
import { Caution } from '../ui';

interface Props {
  readonly of: readonly LoosenedAsApproved[];
  readonly nameOf?: (id: string) => string | undefined;
}

/** What a plan version lets through that the plan in force before it did not, as it was approved: why, and what that rests on. */
export function Loosened({ of, nameOf }: Props) {
  if (of.length === 0) return null;
  return (
    <>
      <h3>What it lets through that the plan before it did not</h3>
      <ul>
        {of.map((one) => (
          <li key={one.point}>
            <strong>{loosenedText(one, nameOf)}</strong>. {looseningBasisText(one)}
          </li>
        ))}
      </ul>
      <Caution />
    </>
  );
}
