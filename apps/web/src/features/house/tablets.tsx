import type { Reply } from '@bakehouse/api-client';
import { deviceList, enrolmentCode, type EnrolmentCode } from '@bakehouse/contracts';
import { useState } from 'react';
import * as z from 'zod';
import { wallTime } from '../../shared/format';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Empty, Notice, Section, StateWord } from '../../shared/ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { useWho } from '../../shared/who';
import { troubleOf } from '../../shared/trouble-of';

const nothing = z.null();

/** The bakehouse's tablets: a code for a new one, and a way to revoke one that was lost. */
export function Tablets() {
  const { site } = useTabletState();
  const { ask } = useWho();
  const loaded = useLoaded('/devices', deviceList);
  const [code, setCode] = useState<EnrolmentCode>();
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const said = (reply: Exclude<Reply<unknown>, { readonly as: 'ok' }>): void => {
    setTrouble(troubleOf(reply, 'Try again when the network is back.'));
  };
  const make = async (): Promise<void> => {
    const reply = await ask('post', '/devices/enrolment-codes', enrolmentCode, { body: { site: site.id } });
    if (reply.as === 'ok') setCode(reply.value);
    else said(reply);
  };
  const revoke = async (device: string): Promise<void> => {
    const reply = await ask('delete', '/devices/{device}', nothing, { params: { path: { device } } });
    if (reply.as === 'ok') await loaded.reload();
    else said(reply);
  };
  if (loaded.reply?.as === 'problem' && loaded.reply.status === 403) return null; // somebody who opens an inspector's access need not enrol tablets
  return (
    <Section title="Tablets">
      {trouble ? (
        <Notice tone="bad" title={trouble.title}>
          <p>{trouble.detail}</p>
        </Notice>
      ) : null}
      <div className="buttons">
        <Button onClick={() => void make()}>A code for a new tablet</Button>
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
                    <Button look="quiet" label={`Revoke ${d.name}`} onClick={() => void revoke(d.id)}>
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
