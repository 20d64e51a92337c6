import { peopleList, type PeopleList } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { useMemo } from 'react';
import { useLocation } from 'wouter';
import { office } from '../../shared/office-paths';
import { useTable, useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { LinkButton, Screen, Section, StateWord } from '../../ui';
import { Beside, DataTable, type Column } from '../../ui/table';
import { AtTheDoor } from './at-the-door';
import { LookedAt } from './looked-at';
import { NewPerson } from './new-person';
import { Person } from './person';
import { Tablets } from './tablets';

type One = PeopleList[number];

/** Who works here and what they may do; tablets. */
export function People({ opened }: { readonly opened: string | undefined }) {
  const { site } = useTabletState();
  const { tablet } = useTable();
  const [, go] = useLocation();
  const loaded = useLoaded('/people', peopleList);
  const columns = useMemo(() => columnsIn(site.zone), [site.zone]);
  const close = (): void => go(office.people);
  const done = async (): Promise<void> => {
    await tablet.refresh(); // what was recorded here is sent first
    await loaded.reload();
  };
  const joins = opened === 'new';
  const one = joins ? undefined : opened;
  const list = (
    <Screen
      title="People and tablets"
      wide
      back={{ to: office.home, text: 'Office' }}
      actions={
        <LinkButton to={office.person('new')} look="go">
          Somebody joins
        </LinkButton>
      }
    >
      <Section title="People">
        <Shown of={loaded}>
          {(people) => (
            <DataTable
              label="People"
              columns={columns}
              rows={people}
              keyOf={(p) => p.id}
              to={(p) => office.person(p.id)}
              opened={one}
              none="Nobody is in this house yet."
            />
          )}
        </Shown>
      </Section>
      {joins ? (
        <NewPerson
          onDone={async () => {
            close();
            await done();
          }}
          onClose={close}
        />
      ) : null}
      <Tablets />
      <LookedAt />
      <AtTheDoor />
    </Screen>
  );
  return (
    <Beside
      opened={one}
      closed={office.people}
      list={list}
      shown={(id) => <Shown of={loaded}>{(people) => <Person key={id} person={people.find((p) => p.id === id)} onDone={done} />}</Shown>}
    />
  );
}

const mayText = (p: One, zone: string): string =>
  [...p.roles.map((r) => phrase(`role.${r.role}`)), ...p.accesses.map((a) => `inspector until ${dayTime(a.expires, zone)}`)].join(', ') ||
  'may do nothing now';

function stateText(p: One, zone: string): string {
  if (p.leftAt !== null) return `left ${dayTime(p.leftAt, zone)}`;
  return p.hasPin ? '' : 'no PIN yet';
}

const columnsIn = (zone: string): readonly Column<One>[] => [
  { id: 'name', head: 'Name', text: (p) => p.name ?? 'name withheld' },
  { id: 'may', head: 'What they do', text: (p) => mayText(p, zone), look: 'wrap' },
  {
    id: 'state',
    head: 'State',
    text: (p) => stateText(p, zone),
    by: (p) => p.leftAt ?? (p.hasPin ? null : ''),
    shown: (p) =>
      stateText(p, zone) === '' ? null : (
        <StateWord shape={p.leftAt === null ? 'diamond' : 'bar'} tone={p.leftAt === null ? 'ask' : 'calm'}>
          {stateText(p, zone)}
        </StateWord>
      ),
  },
  { id: 'joined', head: 'Joined', text: (p) => dayTime(p.joinedAt, zone), by: (p) => p.joinedAt, spare: true },
];
