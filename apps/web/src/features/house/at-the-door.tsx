import { securityEvents, type SecurityEvents, type SecurityWhat } from '@bakehouse/contracts';
import { useState } from 'react';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Empty, Notice, Section } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { OlderKeys } from './older-keys';

type Event = SecurityEvents['events'][number];

const words: Readonly<Record<SecurityWhat, string>> = {
  'signed-on': 'signed on',
  'pin-wrong': 'wrong PIN',
  'pin-set': 'set the PIN of',
  'sessions-ended': 'signed off everywhere',
  'signature-given': 'signed',
  'code-made': 'made a code for a new tablet',
  'device-enrolled': 'let in the tablet',
  'device-revoked': 'revoked the tablet',
  refused: 'was refused',
  exported: 'took away',
  'history-differs': 'was shown records that do not go on from those seen before',
};

/** Who was at the service's door, and what was changed there. */
export function AtTheDoor() {
  const [before, setBefore] = useState<string>();
  const loaded = useLoaded('/security-events', securityEvents, { params: { query: before === undefined ? {} : { before } } });
  const { site } = useTabletState();
  if (loaded.reply?.as === 'problem' && loaded.reply.status === 403) return null;
  return (
    <Section title="At the door">
      <Shown of={loaded}>
        {({ events, next, notices }) => (
          <>
            <Notices of={notices} zone={site.zone} />
            {events.length === 0 ? <Empty>Nothing was noted yet.</Empty> : null}
            <ul className="rows">
              {events.map((e) => (
                <li key={e.id} className="row">
                  <span className="row-main">
                    <strong>{who(e)}</strong> {words[e.what]} {e.about?.name ?? ''}
                    <br />
                    <span className="faint">{[dayTime(e.at, site.zone), from(e), detailOf(e)].filter((s) => s !== '').join(', ')}</span>
                  </span>
                </li>
              ))}
            </ul>
            <OlderKeys before={before} next={next} onBefore={setBefore} />
          </>
        )}
      </Shown>
    </Section>
  );
}

const who = (e: Event): string => (e.person === null ? 'Somebody unknown:' : (e.person.name ?? 'name withheld'));
const from = (e: Event): string => (e.device ? `at ${e.device.name ?? 'a tablet'}` : e.address === null ? '' : `from ${e.address}`);
const strengths: Readonly<Record<string, string>> = { tapped: 'by a tapped name', pin: 'with the PIN' };
const detailOf = (e: Event): string => (e.what === 'signed-on' ? (strengths[e.detail ?? ''] ?? '') : (e.detail ?? ''));

function Notices({
  of: { historyDiffers, wrongPins, newDevices, pinsSetByOthers },
  zone,
}: {
  readonly of: SecurityEvents['notices'];
  readonly zone: string;
}) {
  return (
    <>
      {historyDiffers === null ? null : (
        <Notice tone="bad" title="The records of this house do not go on from what a tablet saw">
          <p>
            {historyDiffers.count === 1 ? 'It was reported once' : `It was reported ${historyDiffers.count} times`} in the last thirty days,
            last on {dayTime(historyDiffers.last, zone)}: see below, by which tablet. After a backup was put back this is to be expected,
            and what came after the backup is missing. Else records were changed or cut off behind the house’s back. Ask the person who
            looks after the service, and change nothing before it is known why.
          </p>
        </Notice>
      )}
      {wrongPins === null ? null : (
        <Notice tone="bad" title={`${wrongPins.count} wrong PINs within a day`}>
          <p>
            They came from {wrongPins.addresses} {wrongPins.addresses === 1 ? 'address' : 'addresses'} and were for {wrongPins.people}{' '}
            {wrongPins.people === 1 ? 'person' : 'people'}. Somebody may be guessing. Tries are slowed; give those people new PINs of six
            figures, and keep the service off the open internet.
          </p>
        </Notice>
      )}
      {newDevices + pinsSetByOthers === 0 ? null : (
        <p>
          In the last seven days: {newDevices} {newDevices === 1 ? 'tablet' : 'tablets'} let in, {pinsSetByOthers}{' '}
          {pinsSetByOthers === 1 ? 'PIN' : 'PINs'} set by somebody else than the person.
        </p>
      )}
    </>
  );
}
