import type { PeopleList } from '@bakehouse/contracts';
import { daysAfter, onTheWall, siteDay } from '@bakehouse/kernel';
import { kindNamed, phrase, type NewEntry } from '@bakehouse/records';
import { systemClock } from '@bakehouse/offline';
import { useState } from 'react';
import { dayText } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Choice, Empty, Field, NumberPad, Screen, Section } from '../../ui';
import { usePinned } from '../../shared/use-pinned';
import { useSigned } from '../../shared/use-signed';
import { useWho } from '../../shared/who';
import { goodPin, roleOptions, type GivenRole } from './roles';
import { setPin } from '../../shared/set-pin';
import { SignedOnAt } from './signed-on-at';

type One = PeopleList[number];
interface Props {
  readonly person: One | undefined;
  readonly onDone: () => Promise<void>;
}
const back = { to: office.people, text: 'People and tablets' };

/** One person: roles, PIN, an inspector's access, and leaving. Their name stays readable in the record. */
export function Person({ person, onDone }: Props) {
  return person ? (
    <Known person={person} onDone={onDone} />
  ) : (
    <Screen title="Nobody of that name" back={back}>
      <Empty>They are not on the list of this house.</Empty>
    </Screen>
  );
}

function Known({ person, onDone }: { readonly person: One; readonly onDone: () => Promise<void> }) {
  const signed = useSigned();
  const { withPin, busy, pad } = usePinned();
  const {
    site: { zone },
  } = useTabletState();
  const does = (entry: NewEntry): void =>
    withPin(`You sign: “${kindNamed(entry.kind).signed}”.`, async (pin) => {
      const result = await signed(pin, entry);
      if (result.as === 'trouble') return result.trouble;
      await onDone();
      return undefined;
    });
  return (
    <Screen title={person.name ?? 'Somebody'} back={back}>
      {person.leftAt === null ? null : <p>Left {dayTime(person.leftAt, zone)}. They cannot sign on; what they recorded stays readable.</p>}
      <ul className="rows">
        {person.roles.map((r) => (
          <li key={r.given} className="row">
            <span className="row-main">
              {phrase(`role.${r.role}`)}
              {r.site === null ? ', at every site' : ''}
            </span>
            <Button
              look="quiet"
              disabled={busy}
              label={`Take it away: ${phrase(`role.${r.role}`)}`}
              onClick={() => does({ kind: 'role-taken-away', payload: { given: r.given } })}
            >
              Take it away
            </Button>
          </li>
        ))}
        {person.accesses.map((a) => (
          <li key={a.access} className="row">
            <span className="row-main">
              inspector, records from {dayText(a.from)} {a.until === null ? 'on' : `to ${dayText(a.until)}`}, until{' '}
              {dayTime(a.expires, zone)}
            </span>
            <Button
              look="quiet"
              disabled={busy}
              label="End it: this access"
              onClick={() => does({ kind: 'access-ended', payload: { access: a.access } })}
            >
              End it
            </Button>
          </li>
        ))}
      </ul>
      {person.leftAt !== null ? null : (
        <>
          <GiveRole person={person.id} busy={busy} does={does} />
          <Inspect person={person.id} busy={busy} does={does} />
          <Pin person={person} onDone={onDone} />
          <SignedOnAt person={person.id} name={person.name ?? 'this person'} />
          <Leave busy={busy} onLeave={() => does({ kind: 'person-left', payload: { person: person.id } })} />
        </>
      )}
      {pad}
    </Screen>
  );
}

interface Part {
  readonly person: string;
  readonly busy: boolean;
  readonly does: (entry: NewEntry) => void;
}

function GiveRole({ person, busy, does }: Part) {
  const [role, setRole] = useState<GivenRole | null>(null);
  const give = (): void => {
    if (role !== null) does({ kind: 'role-given', payload: { person, role, site: null, until: null } });
  };
  return (
    <details>
      <summary>Give a role</summary>
      <Choice label="Role" hideLabel value={role} onChange={setRole} options={roleOptions} />
      <Button disabled={busy || role === null} onClick={give}>
        Give it, at every site
      </Button>
    </details>
  );
}

const spans = { today: 12, week: 7 * 24 } as const;

function Inspect({ person, busy, does }: Part) {
  const [span, setSpan] = useState<keyof typeof spans>('today');
  const { site } = useTabletState();
  const [from, setFrom] = useState(() => daysAfter(siteDay(systemClock.now().toISOString(), site), -30));
  const [until, setUntil] = useState('');
  const backwards = until !== '' && until < from;
  const give = (): void => {
    const expires = onTheWall(new Date(systemClock.now().getTime() + spans[span] * 3_600_000).toISOString(), site.zone);
    does({ kind: 'access-given', payload: { person, sites: [site.id], from, until: until === '' ? null : until, expires } });
  };
  return (
    <details>
      <summary>Let them look as an inspector</summary>
      <p>Only looking, only at {site.name}. What they look at and take away is noted. It ends by itself.</p>
      <div className="two">
        <Field
          label="Records from"
          type="date"
          value={from}
          onChange={setFrom}
          required
          hint={from === '' ? 'A day is needed' : undefined}
        />
        <Field
          label="Records until"
          type="date"
          value={until}
          onChange={setUntil}
          hint={backwards ? 'Not before the day that it begins' : 'Empty: also what comes while it lasts'}
        />
      </div>
      <Choice
        label="For how long"
        value={span}
        onChange={setSpan}
        options={[
          { value: 'today', text: '12 hours' },
          { value: 'week', text: 'a week' },
        ]}
      />
      <Button disabled={busy || from === '' || backwards} onClick={give}>
        Let them look
      </Button>
    </details>
  );
}

function Pin({ person, onDone }: { readonly person: One; readonly onDone: () => Promise<void> }) {
  const [pin, setNew] = useState('');
  const { ask, person: me } = useWho();
  const { withPin, busy, pad } = usePinned();
  const says =
    person.id === me.id
      ? 'You change your own PIN. You stay signed on here, and are signed off everywhere else.'
      : `You give ${person.name ?? 'this person'} a PIN. They choose their own in its place when they first use it.`;
  const save = (): void =>
    withPin(says, async (own) => {
      const against = await setPin(ask, person.id, pin, own);
      if (against) return against;
      setNew('');
      await onDone();
      return undefined;
    });
  return (
    <details>
      <summary>{person.hasPin ? 'A new PIN' : 'A PIN'}</summary>
      <NumberPad
        label="Four to eight figures, no run and no year"
        value={pin}
        onChange={setNew}
        decimals={false}
        hide
        maxDigits={8}
        autoFocus={false}
      />
      <div className="buttons">
        <Button disabled={busy || !goodPin(pin)} onClick={save}>
          Set it
        </Button>
      </div>
      {pad}
    </details>
  );
}

function Leave({ busy, onLeave }: { readonly busy: boolean; readonly onLeave: () => void }) {
  return (
    <Section title="Leaving">
      <details>
        <summary>They leave</summary>
        <p>From now on they cannot sign on. Their records stay, with their name.</p>
        <Button look="grave" disabled={busy} onClick={onLeave}>
          They have left
        </Button>
      </details>
    </Section>
  );
}
