import { viewings } from '@bakehouse/contracts';
import { useState } from 'react';
import { dayText } from '../../shared/format';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { OlderKeys } from './older-keys';
import { Empty, Section } from '../../ui';

/** What inspectors looked at and took away: each visit can be read afterwards. */
export function LookedAt() {
  const [before, setBefore] = useState<string>();
  const loaded = useLoaded('/viewings', viewings, { params: { query: before === undefined ? {} : { before } } });
  const { site } = useTabletState();
  if (loaded.reply?.as === 'problem' && loaded.reply.status === 403) return null;
  return (
    <Section title="What inspectors looked at">
      <Shown of={loaded}>
        {({ viewings: found, next }) => (
          <>
            {found.length === 0 ? <Empty>No inspector has looked at anything yet.</Empty> : null}
            <ul className="rows">
              {found.map((v) => (
                <li key={v.id} className="row">
                  <span className="row-main">
                    <strong>{v.person.name ?? 'name withheld'}</strong> {v.exported ? 'took away' : 'looked at'} {v.what}
                    {v.site === null ? '' : `, ${v.site.name ?? 'a site'}`}
                    {v.days === null
                      ? ''
                      : `, ${v.days.from === v.days.until ? dayText(v.days.from) : `${dayText(v.days.from)} to ${dayText(v.days.until)}`}`}
                  </span>
                  <span className="row-side">{dayTime(v.at, site.zone)}</span>
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
