import type { Reply } from '@bakehouse/api-client';
import { deviceList, enrolmentCode, type EnrolmentCode } from '@bakehouse/contracts';
import { useState } from 'react';
import * as z from 'zod';
import { wallTime } from '../../shared/format';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Empty, Notice, Section, StateWord } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { usePinned } from '../../shared/use-pinned';
import { useWho } from '../../shared/who';
import { troubleOf, type Trouble } from '../../shared/trouble-of';

const nothing = z.null();

/** The bakehouse's tablets: a code for a new one, and a way to revoke one that was lost. */
export function Tablets() {
  const { site } = useTabletState();
  const { ask } = useWho();
  const loaded = useLoaded('/devices', deviceList);
  const [code, setCode] = useState<EnrolmentCode>();
  const { withPin, busy, pad } = usePinned();
  const againstIt = (reply: Exclude<Reply<unknown>, { readonly as: 'ok' }>): Trouble =>
    troubleOf(reply, 'Try again when the network is back.');
  const make = (): void =>
    withPin('You make a code for a new tablet.', async (currentPin) => {
      const reply = await ask('post', '/devices/enrolment-codes', enrolmentCode, { body: { site: site.id, currentPin } });
      if (reply.as !== 'ok') return againstIt(reply);
      setCode(reply.value);
      return undefined;
    });
  const revoke = (device: string, name: string): void =>
    withPin(`You revoke ${name}.`, async (currentPin) => {
      const reply = await ask('post', '/devices/{device}/revocation', nothing, { params: { path: { device } }, body: { currentPin } });
      if (reply.as !== 'ok') return againstIt(reply);
      await loaded.reload();
      return undefined;
    });
  if (loaded.reply?.as === 'problem' && loaded.reply.status === 403) return null; // somebody who opens an inspector's access need not enrol tablets
  return (
    <Section title="Tablets">
      {pad}
      <div className="buttons">
        <Button disabled={busy} onClick={make}>
          A code for a new tablet
        </Button>
      </div>
      {code ? (
        <Notice tone="calm" title={`Type on the new tablet: ${code.code}`}>
          <p>
            For one tablet, until {wallTime(code.expiresAt, site.zone)}. On its first page, open “Make this one of the bakehouse’s tablets”.
          </p>
        </Notice>
      ) : null}
      <Shown of={loaded}>
        {(devices) =>
          devices.length === 0 ? (
            <Empty>No tablet is enrolled yet.</Empty>
          ) : (
            <ul className="rows">
              {devices.map((d) => (
                <li key={d.id} className="row">
                  <span className="row-main">
                    <strong>{d.name}</strong>
                    <br />
                    <span className="faint">since {dayTime(d.enrolledAt, site.zone)}</span>
                  </span>
                  {d.revokedAt === null ? (
                    <Button look="quiet" label={`Revoke ${d.name}`} disabled={busy} onClick={() => revoke(d.id, d.name)}>
                      Revoke
                    </Button>
                  ) : (
                    <StateWord shape="bar" tone="calm">{`revoked ${dayTime(d.revokedAt, site.zone)}`}</StateWord>
                  )}
                </li>
              ))}
            </ul>
          )
        }
      </Shown>
    </Section>
  );
}
