import { countText } from '@bakehouse/kernel';
import { recallView, traceView, type TraceView } from '@bakehouse/contracts';
import { systemClock, systemIds } from '@bakehouse/offline';
import { hazard as hazards, type Hazard } from '@bakehouse/records';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { whole } from '../../shared/format';
import { HazardChoice } from '../../shared/hazard-choice';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { OnlyAPart } from '../../shared/trace/partial';
import { InTheHouse } from '../../shared/trace/where-it-went';
import { Button, Caution, Choice, Field, Notice, Screen, Section } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { useWho } from '../../shared/who';
import { troubleOf } from '../../shared/trouble-of';
import { TroubleNotice } from '../../shared/trouble-notice';
import { useSameCode } from './same-code';

/** What has to be said before a case can be opened, or null. */
function missingFrom(hazard: Hazard | null, name: string, practice: string | null): string | null {
  if (hazard === null) return 'Choose the hazard.';
  if (name.trim() === '') return 'Say in a word what was found.';
  return practice === null ? 'Say whether it is real or a practice.' : null;
}

/** Opens a case: what it is about, real or practice. What is in the house is put on hold at once. */
export function NewRecall({ lot, hazard: asked }: { readonly lot: string; readonly hazard: string | undefined }) {
  const [id] = useState(() => systemIds.entry(systemClock.now())); // once: pressing twice opens one case
  const [hazard, setHazard] = useState<Hazard | null>(hazards.safeParse(asked).data ?? null);
  const [practice, setPractice] = useState<RealOr | null>(null);
  const [name, setName] = useState('');
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const { askPatiently } = useWho();
  const [, go] = useLocation();
  const {
    connected,
    site: { zone },
  } = useTabletState();
  const loaded = useLoaded('/lots/{lot}/trace', traceView, { params: { path: { lot: lot }, query: hazard === null ? {} : { hazard } } });
  const trace = loaded.reply?.as === 'ok' ? loaded.reply.value : null;
  const sameCode = useSameCode(trace, zone);
  const open = async (): Promise<void> => {
    if (hazard === null) return;
    setBusy(true);
    setTrouble(undefined);
    const all = [said.trim(), sameCode.said].filter((one) => one !== '').join('\n');
    const more = all === '' ? {} : { said: all.slice(0, 4000) };
    const suspect = [lot, ...sameCode.suspects];
    const body = { id, suspect, hazard, hazardName: name.trim(), practice: practice === 'practice', ...more };
    const reply = await askPatiently('post', '/recalls', recallView, { body });
    setBusy(false);
    if (reply.as === 'ok') go(office.recall(reply.value.id), { replace: true });
    else setTrouble(troubleOf(reply, 'A case is opened on line. Set aside by hand what is named below, and try again.'));
  };
  const lookedUp = loaded.reply === undefined ? 'One moment: it is looked up which lots have the same code.' : null;
  const missing = missingFrom(hazard, name, practice) ?? sameCode.missing ?? lookedUp;
  return (
    <Screen title="Open a recall" back={{ to: office.lot(lot), text: 'The lot' }}>
      {practice === 'practice' ? <p className="practice">Practice: nothing is put on hold, nobody is contacted</p> : null}
      {connected === false ? <NotConnected /> : null}
      {trace ? <OnlyAPart trace={trace} /> : null}
      {sameCode.section}
      <Section title="Which hazard?">
        <HazardChoice value={hazard} onChange={setHazard} />
      </Section>
      <Field
        label="In a word: what was found, or is feared"
        value={name}
        onChange={setName}
        hint="Such as: Salmonella; glass; soya not declared"
        maxLength={120}
        required
      />
      <Field label="Who said what, if you like" value={said} onChange={setSaid} lines={2} maxLength={2000} />
      <RealOrPractice value={practice} onChange={setPractice} />
      <TroubleNotice of={trouble} />
      <div className="buttons">
        <Button look={practice === 'real' ? 'grave' : 'go'} disabled={busy || missing !== null} onClick={() => void open()}>
          {busy ? 'One moment…' : practice === 'practice' ? 'Open the practice' : 'Open it and put everything on hold'}
        </Button>
      </div>
      {missing === null ? null : <p className="hint">{missing}</p>}
      <Shown of={loaded}>
        {(trace) => <WouldBeHeld trace={trace} alike={sameCode.suspects.length} practice={practice === 'practice'} />}
      </Shown>
      <Caution />
    </Screen>
  );
}

type RealOr = 'real' | 'practice';

const RealOrPractice = ({ value, onChange }: { readonly value: RealOr | null; readonly onChange: (value: RealOr) => void }) => (
  <Choice
    label="Is this real?"
    value={value}
    onChange={onChange}
    options={[
      { value: 'real', text: 'It is real' },
      { value: 'practice', text: 'It is a practice' },
    ]}
  />
);

const NotConnected = () => (
  <Notice tone="ask" title="Not connected">
    <p>A case is opened on line.</p>
  </Notice>
);

interface WouldBe {
  readonly trace: TraceView;
  /** How many of the same code are in the case as well. */
  readonly alike: number;
  readonly practice: boolean;
}

function WouldBeHeld({ trace, alike, practice }: WouldBe) {
  return (
    <Section title={practice ? 'What would be put on hold' : 'What is put on hold as soon as it is open'}>
      <p>
        {countText(trace.lots.length, 'lot')} in scope, {whole(trace.contacts.length)} to contact.
        {alike === 0
          ? null
          : ` Added to that: ${whole(alike)} of the same code and all that came of ${alike === 1 ? 'it' : 'them'}, found when the case is opened.`}
      </p>
      <InTheHouse trace={trace} />
    </Section>
  );
}
