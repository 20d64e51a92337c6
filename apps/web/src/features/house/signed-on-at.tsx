import { openSessions } from '@bakehouse/contracts';
import * as z from 'zod';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { troubleOf } from '../../shared/trouble-of';
import { Button, Empty } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { usePinned } from '../../shared/use-pinned';
import { useWho } from '../../shared/who';

/** Where one person is signed on now, and signing them off there: a tablet that was left open, a telephone that was lost. */
export function SignedOnAt({ person, name }: { readonly person: string; readonly name: string }) {
  const loaded = useLoaded('/people/{person}/sessions', openSessions, { params: { path: { person } } });
  const { site } = useTabletState();
  const { ask } = useWho();
  const { withPin, busy, pad } = usePinned();
  const end = (): void =>
    withPin(`You sign ${name} off everywhere but here.`, async (currentPin) => {
      const reply = await ask('post', '/people/{person}/sessions/end', z.null(), { params: { path: { person } }, body: { currentPin } });
      if (reply.as !== 'ok') return troubleOf(reply, 'Nobody was signed off. Try again when the network is back.');
      await loaded.reload();
      return undefined;
    });
  return (
    <details>
      <summary>Where they are signed on</summary>
      <Shown of={loaded}>
        {(open) => (
          <>
            {open.length === 0 ? <Empty>Nowhere now.</Empty> : null}
            <ul className="rows">
              {open.map((s) => (
                <li key={s.id} className="row">
                  <span className="row-main">
                    <strong>{s.device === null ? 'not at a tablet of this house' : s.device.name}</strong>
                    {s.current ? ', here' : ''}
                    <br />
                    <span className="faint">
                      {s.strength === 'pin' ? 'with the PIN' : 'by a tapped name'} since {dayTime(s.since, site.zone)}, last seen{' '}
                      {dayTime(s.lastSeen, site.zone)}
                    </span>
                  </span>
                </li>
              ))}
            </ul>
            {open.some((s) => !s.current) ? (
              <Button look="quiet" disabled={busy} onClick={end}>
                Sign them off everywhere but here
              </Button>
            ) : null}
          </>
        )}
      </Shown>
      {pad}
    </details>
  );
}
