import type { PartyList } from '@bakehouse/contracts';
import { collections, phrase } from '@bakehouse/records';
import { systemClock, systemIds } from '@bakehouse/offline';
import { useEffect, useRef, useState } from 'react';
import { office } from '../../shared/office-paths';
import { Shown, type Loaded } from '../../shared/use-loaded';
import { Button, Choice, Empty, Field, Screen } from '../../ui';
import { useProven } from '../../shared/use-proven';
import { useProvenAct } from '../../shared/use-proven-act';
import { YesNo } from './yes-no';

type Party = PartyList['parties'][number];
interface Props {
  readonly party: Party | undefined;
  readonly onDone: () => Promise<void>;
}

const back = { to: office.parties, text: 'Suppliers and customers' };

/** One of them, or somebody new. Whom to contact there is only for somebody whose PIN was given: it is asked for first. */
export function PartyPage({
  id,
  loaded,
  onDone,
}: {
  readonly id: string;
  readonly loaded: Loaded<PartyList>;
  readonly onDone: () => void;
}) {
  const [proven, setProven] = useState(false);
  const prove = useProven();
  const asked = useRef(false);
  const { reload } = loaded;
  const ask = async (): Promise<void> => {
    if (!(await prove())) return;
    await reload();
    setProven(true);
  };
  useEffect(() => {
    if (asked.current) return;
    asked.current = true;
    void ask();
  });
  if (!proven)
    return (
      <Screen title={id === 'new' ? 'Somebody new' : 'A supplier or customer'} back={back}>
        <p>Give your PIN to see whom to contact there.</p>
        <div className="buttons">
          <Button onClick={() => void ask()}>Give your PIN</Button>
        </div>
      </Screen>
    );
  const done = async (): Promise<void> => {
    await reload();
    onDone();
  };
  return (
    <Shown of={loaded}>
      {({ parties }) => {
        const party = parties.find((p) => p.party === id);
        return party || id === 'new' ? (
          <PartyForm party={party} onDone={done} />
        ) : (
          <Screen title="Nobody of that name" back={back}>
            <Empty>They are not on the list. Look for them by name.</Empty>
          </Screen>
        );
      }}
    </Shown>
  );
}

const types = collections.party.row.shape.type.options.map((value) => ({ value, text: phrase(`party.${value}`) }));
const fields = [
  ['name', 'Name', 120],
  ['contactName', 'Contact in a recall', 120],
  ['phone', 'Telephone', 40],
  ['email', 'E-mail', 120],
  ['address', 'Address', 300],
] as const;
type Words = Readonly<Record<(typeof fields)[number][0], string>>;

const wordsOf = (p: Party | undefined): Words => ({
  name: p?.name ?? '',
  contactName: p?.contact?.name ?? '',
  phone: p?.contact?.phone ?? '',
  email: p?.contact?.email ?? '',
  address: p?.contact?.address ?? '',
});

/** A supplier or customer: all of it is accepted again, or dealing with them stops. */
function PartyForm({ party, onDone }: Props) {
  const [id] = useState(() => party?.party ?? systemIds.entry(systemClock.now()));
  const [words, setWords] = useState(() => wordsOf(party));
  const [type, setType] = useState(party?.type ?? 'customer');
  const [vulnerable, setVulnerable] = useState(party?.vulnerable ?? false);
  const [unattended, setUnattended] = useState(party?.unattended ?? false);
  const { act, busy, trouble } = useProvenAct();
  const save = async (): Promise<void> => {
    const said = Object.fromEntries(Object.entries(words).flatMap(([key, text]) => (text.trim() === '' ? [] : [[key, text.trim()]])));
    const done = await act({ kind: 'party-accepted', payload: { party: id, type, vulnerable, unattended }, words: said });
    if (done) await onDone();
  };
  const stop = async (): Promise<void> => {
    const done = await act({ kind: 'party-stopped', payload: { party: id } });
    if (done) await onDone();
  };
  return (
    <Screen title={party?.name ?? 'Somebody new'} back={back}>
      {trouble}
      <Choice label="What they are to us" value={type} onChange={setType} options={types} />
      {fields.map(([key, label, most]) => (
        <Field
          key={key}
          label={label}
          value={words[key]}
          onChange={(text) => setWords({ ...words, [key]: text })}
          maxLength={most}
          required={key === 'name'}
        />
      ))}
      {type === 'supplier' ? null : (
        <YesNo
          label="Do children, patients or people who depend on it eat there? They are contacted first."
          value={vulnerable}
          onChange={setVulnerable}
        />
      )}
      <YesNo label="Are goods left with nobody there?" value={unattended} onChange={setUnattended} />
      {words.phone.trim() === '' && words.email.trim() === '' ? <p>With no number, nobody can be reached in a recall.</p> : null}
      <div className="buttons">
        <Button look="go" disabled={busy || words.name.trim() === ''} onClick={() => void save()}>
          Accept it from now on
        </Button>
        {party && party.stopped === null ? (
          <Button look="grave" disabled={busy} onClick={() => void stop()}>
            Deal with them no more
          </Button>
        ) : null}
      </div>
    </Screen>
  );
}
