import { whole } from './format';
import { Field, Notice } from '../ui';

interface Props {
  readonly lots: readonly { readonly lot: string; readonly name: string | null; readonly code: string | null }[];
  readonly why: string;
  readonly onWhy: (why: string) => void;
}

/** What somebody closes over: every lot that is held and undecided, and the reason why it stays on hold. Nothing where all is decided. */
export function StaysOnHold({ lots, why, onWhy }: Props) {
  if (lots.length === 0) return null;
  const title = `Still to be decided on: ${lots.length === 1 ? 'this lot stays' : `these ${whole(lots.length)} lots stay`} on hold`;
  return (
    <>
      <Notice tone="bad" title={title}>
        <ul>
          {lots.map((l) => (
            <li key={l.lot}>
              {l.name === null ? 'a lot at a site that you may not look at' : `${l.name}${l.code === null ? '' : `, ${l.code}`}`}
            </li>
          ))}
        </ul>
      </Notice>
      <Field label="Why it stays on hold undecided" value={why} onChange={onWhy} lines={2} maxLength={1000} required />
    </>
  );
}
