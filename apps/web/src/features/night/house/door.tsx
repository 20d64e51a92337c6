import type { Whereabouts } from '@bakehouse/views';
import { Link } from 'wouter';
import { whole } from '../../../shared/format';
import { batchText } from '../../../shared/night/pieces-text';
import { paths } from '../../../shared/night/paths';
import { LinkButton } from '../../../ui';
import { BatchState } from '../batch-state';

/** What may leave, and what was released already, folded to one line. */
export function Door({ where: { released, waiting } }: { readonly where: Whereabouts }) {
  const ready = waiting.filter((b) => b.release.state === 'may-go').length;
  return (
    <div className="door">
      <p className="door-ready">
        <b>{whole(ready)}</b> ready to release
      </p>
      <LinkButton to={paths.out}>Send out</LinkButton>
      {released.length === 0 ? (
        <p className="nothing">Nothing released yet.</p>
      ) : (
        <details>
          <summary>{whole(released.length)} released</summary>
          <ul className="sub">
            {released.map((b) => (
              <li key={b.id}>
                <Link href={paths.batch(b.id)}>
                  {batchText(b)}, {b.code}
                </Link>
                <BatchState b={b} />
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}
