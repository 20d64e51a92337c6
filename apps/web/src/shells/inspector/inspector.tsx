import { me, type Me } from '@bakehouse/contracts';
import { permissionsOf } from '@bakehouse/kernel';
import { useState } from 'react';
import { Redirect } from 'wouter';
import { Officer } from '../../features/inspection/officer';
import { dayText } from '../../shared/format';
import { dayTime } from '../../shared/trace/words';
import { Caution, Empty, Screen, Tile, Tiles } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { AtDevice } from '../sign-on/at-device';

/** For an inspector's own access: what was opened to them, where, for which days and until when. Only looking. People who work here begin at their own work. */
export function Inspector() {
  return (
    <AtDevice>
      {({ onLeave, here: { person } }) =>
        person.permissions.every((p) => permissionsOf.inspector.includes(p)) ? (
          <Landing name={person.name} onLeave={onLeave} />
        ) : (
          <Redirect to="/table" replace />
        )
      }
    </AtDevice>
  );
}

type Site = Me['sites'][number];

function Landing({ name, onLeave }: { readonly name: string; readonly onLeave: () => void }) {
  const loaded = useLoaded('/me', me);
  const [site, setSite] = useState<Site>();
  return (
    <Shown of={loaded}>
      {(who) => {
        if (site) {
          const access = accessTo(who, site.id);
          return (
            <>
              <Bar name={name} onLeave={onLeave} onSites={() => setSite(undefined)} />
              <Officer
                site={site}
                back={{ to: '/inspector', text: 'Your access' }}
                earliest={access?.from}
                latest={access?.until ?? undefined}
              />
            </>
          );
        }
        return (
          <>
            <Bar name={name} onLeave={onLeave} />
            <Screen title={`${who.organisation.name}: your access`}>
              <p>
                You may look at what is listed here, and at nothing else. You cannot change anything. What you look at and download is
                noted, and the bakehouse can see it.
              </p>
              {who.sites.length === 0 ? (
                <Empty>No access is open for you now. Ask the bakehouse to open one.</Empty>
              ) : (
                <Tiles label="Sites">
                  {who.sites.map((s) => (
                    <Tile key={s.id} title={s.name} detail={periodText(accessTo(who, s.id))} onClick={() => setSite(s)} />
                  ))}
                </Tiles>
              )}
              {who.inspections.map((a) => (
                <p key={`${a.from} ${a.expires}`}>Open until {dayTime(a.expires, who.sites[0]?.zone ?? 'UTC')}.</p>
              ))}
              <Caution />
            </Screen>
          </>
        );
      }}
    </Shown>
  );
}

const accessTo = (who: Me, site: string): Me['inspections'][number] | undefined => who.inspections.find((a) => a.sites.includes(site));
const periodText = (a: Me['inspections'][number] | undefined): string =>
  a ? `records from ${dayText(a.from)} to ${a.until === null ? 'today' : dayText(a.until)}` : 'all records';

function Bar({ name, onLeave, onSites }: { readonly name: string; readonly onLeave: () => void; readonly onSites?: () => void }) {
  return (
    <header className="bar strip">
      <p className="strip-place">
        <strong>{name}</strong> looks only
      </p>
      <p className="strip-state">
        {onSites ? (
          <button type="button" className="quiet-link" onClick={onSites}>
            Your access
          </button>
        ) : null}
      </p>
      <button type="button" className="button plain who" onClick={onLeave}>
        Leave
      </button>
    </header>
  );
}
