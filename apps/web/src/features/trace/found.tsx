import { found, type Found } from '@bakehouse/contracts';
import { lotCodeKey } from '@bakehouse/records';
import { Link, Redirect } from 'wouter';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { Empty, Screen, Section } from '../../ui';
import { foundGroups } from './found-groups';

/** What was found. Where only one lot carries exactly that code there is nothing to choose: its page opens at once. */
export function FoundLots({ words }: { readonly words: string }) {
  const loaded = useLoaded('/search', found, { params: { query: { words, limit: 50 } } });
  return (
    <Shown of={loaded}>
      {(all) => {
        const only = theOne(all, words);
        return only ? <Redirect to={office.lot(only.id)} replace /> : <List found={all} words={words} />;
      }}
    </Shown>
  );
}

function theOne({ lots, deliveries, parties, people }: Found, words: string): Found['lots'][number] | undefined {
  const exact = lots.filter((l) => l.code !== null && lotCodeKey(l.code) === lotCodeKey(words));
  if (exact.length === 1) return exact[0];
  return lots.length === 1 && deliveries.length + parties.length + people.length === 0 ? lots[0] : undefined;
}

function List({ found: all, words }: { readonly found: Found; readonly words: string }) {
  const { site } = useTabletState();
  const groups = foundGroups(all, site);
  return (
    <Screen title={`Like “${words}”`} back={{ to: office.home, text: 'Office' }}>
      {groups.length === 0 ? (
        <Empty>
          Nothing at the sites that you may look at has that code, number or name. Try a part of the code, or the name of the material; the
          supplier may read it differently than it was typed here.
        </Empty>
      ) : null}
      {groups.map((group) => (
        <Section key={group.kind} title={group.kind}>
          <ul className="rows">
            {group.of.map((one) => (
              <li key={one.key}>
                <Link href={one.to} className="row">
                  {one.code === null ? null : <span className="code">{one.code}</span>}
                  <strong>{one.title}</strong>
                  <span className="faint">{one.about}</span>
                </Link>
              </li>
            ))}
          </ul>
        </Section>
      ))}
    </Screen>
  );
}
