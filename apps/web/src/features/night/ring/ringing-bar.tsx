import { Link } from 'wouter';
import { makeQuiet, useRinging, type Ring } from '../../../shared/ringing';
import { Button } from '../../../ui';
import '../../../ui/styles/ring.css';

/** What rings now, and the key to be quiet. In the question who is there it leads nowhere: who taps there is not known yet. */
export function RingingBar({ leads }: { readonly leads: boolean }) {
  const rings = useRinging();
  if (rings.length === 0) return null;
  return (
    <div className="ringing" role="alert">
      <ul>
        {rings.map((r) => (
          <li key={r.id}>
            {leads ? (
              <Link href={r.to}>
                <What r={r} />
              </Link>
            ) : (
              <What r={r} />
            )}
          </li>
        ))}
      </ul>
      <Button onClick={makeQuiet}>Quiet</Button>
    </div>
  );
}

const What = ({ r: { name, where, over } }: { readonly r: Ring }) => (
  <>
    <b>{name}</b>
    {where === '' ? '' : ` ${where}`}, {over === '0 min' ? 'time is up' : `${over} over`}
  </>
);
