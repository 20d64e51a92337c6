import type { Reply } from '@bakehouse/api-client';
import { deviceList, enrolmentCode, type DeviceList, type EnrolmentCode } from '@bakehouse/contracts';
import { useMemo, useState } from 'react';
import * as z from 'zod';
import { wallTime } from '../../shared/format';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Notice, Section, StateWord } from '../../ui';
import { DataTable, type Column } from '../../ui/table';
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
  const columns = useMemo(() => columnsIn(site.zone), [site.zone]);
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
        <Button needs="manage.site" disabled={busy} onClick={make}>
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
        {(devices) => (
          <DataTable
            label="Tablets"
            columns={columns}
            rows={devices}
            keyOf={(d) => d.id}
            none="No tablet is enrolled yet."
            keys={(d) =>
              d.revokedAt === null ? (
                <Button needs="manage.site" look="quiet" label={`Revoke ${d.name}`} disabled={busy} onClick={() => revoke(d.id, d.name)}>
                  Revoke
                </Button>
              ) : null
            }
          />
        )}
      </Shown>
    </Section>
  );
}

const columnsIn = (zone: string): readonly Column<DeviceList[number]>[] => [
  { id: 'name', head: 'Tablet', text: (d) => d.name },
  { id: 'since', head: 'Let in', text: (d) => dayTime(d.enrolledAt, zone), by: (d) => d.enrolledAt },
  {
    id: 'state',
    head: 'State',
    text: (d) => (d.revokedAt === null ? 'in use' : `revoked ${dayTime(d.revokedAt, zone)}`),
    by: (d) => d.revokedAt ?? '',
    shown: (d) => (
      <StateWord shape={d.revokedAt === null ? 'disc' : 'bar'} tone={d.revokedAt === null ? 'good' : 'calm'}>
        {d.revokedAt === null ? 'in use' : `revoked ${dayTime(d.revokedAt, zone)}`}
      </StateWord>
    ),
  },
];
