import { peopleList, type PeopleList } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { useState } from 'react';
import { office } from '../../shared/office-paths';
import { useTable, useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Screen, Section, StateWord } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { AtTheDoor } from './at-the-door';
import { NewPerson } from './new-person';
import { PersonSheet } from './person-sheet';
import { Tablets } from './tablets';

type One = PeopleList[number];

/** Who works here and what they may do; tablets. */
export function People() {
  const { site } = useTabletState();
  const { tablet } = useTable();
  const loaded = useLoaded('/people', peopleList);
  const [open, setOpen] = useState<string | 'new'>();
  const done = async (): Promise<void> => {
    await tablet.refresh(); // what was recorded here is sent first
    await loaded.reload();
  };
  return (
    <Screen
      title="People and tablets"
      back={{ to: office.home, text: 'Office' }}
      actions={
        <Button look="go" onClick={() => setOpen('new')}>
          Somebody joins
        </Button>
      }
    >
      <Shown of={loaded}>
        {(people) => {
          const chosen = people.find((p) => p.id === open);
          return (
            <>
              <Section title="People">
                <ul className="rows">
                  {people.map((p) => (
                    <li key={p.id}>
                      <PersonRow p={p} zone={site.zone} onOpen={() => setOpen(p.id)} />
                    </li>
                  ))}
                </ul>
              </Section>
              {chosen ? <PersonSheet person={chosen} onDone={done} onClose={() => setOpen(undefined)} /> : null}
            </>
          );
        }}
      </Shown>
      {open === 'new' ? (
        <NewPerson
          onDone={async () => {
            setOpen(undefined);
            await done();
          }}
          onClose={() => setOpen(undefined)}
        />
      ) : null}
      <Tablets />
      <AtTheDoor />
    </Screen>
  );
}

function PersonRow({ p, zone, onOpen }: { readonly p: One; readonly zone: string; readonly onOpen: () => void }) {
  const may = p.roles.map((r) => phrase(`role.${r.role}`)).join(', ');
  const accesses = p.accesses.map((a) => `inspector until ${dayTime(a.expires, zone)}`).join(', ');
  return (
    <button type="button" className="row" onClick={onOpen}>
      <span className="row-main">
        <strong>{p.name ?? 'name withheld'}</strong>
        <br />
        <span className="faint">{[may, accesses].filter((s) => s !== '').join('; ') || 'may do nothing now'}</span>
      </span>
      {p.leftAt === null ? null : <StateWord shape="bar" tone="calm">{`left ${dayTime(p.leftAt, zone)}`}</StateWord>}
      {p.leftAt === null && !p.hasPin ? (
        <StateWord shape="diamond" tone="ask">
          no PIN yet
        </StateWord>
      ) : null}
    </button>
  );
}
