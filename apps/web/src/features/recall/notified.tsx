import type { NotifiedInCase, RecallView } from '@bakehouse/contracts';
import { phrase, type NotifiedTo, type PayloadFor } from '@bakehouse/records';
import { useState } from 'react';
import { WhenWho, type WhenAndWho } from '../../shared/night/when-who';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { useAct } from '../../shared/use-act';
import { Button, Choice, Field, Notice, Section, Sheet } from '../../ui';

type How = PayloadFor<'recall-notified'>['how'];

interface Props {
  readonly recall: RecallView;
  readonly zone: string;
  /** Whether the device knows the case yet. */
  readonly ready: boolean;
  readonly onRecorded: () => void;
}

/** When the authority was told of the case and the public, and by whom; another can be recorded, after the close too. */
export function AuthorityAndPublic({ recall, zone, ready, onRecorded }: Props) {
  const [adding, setAdding] = useState<NotifiedTo>();
  const all = useNotified(recall);
  return (
    <Section title={recall.practice ? 'Practice: authority and public' : 'Authority and public'}>
      {all.some((n) => n.to === 'authority') ? null : (
        <Notice tone={recall.practice ? 'ask' : 'bad'} title="Nobody has recorded that the authority was told.">
          <p>
            {recall.practice
              ? 'This is a practice. In a real case your local food-safety authority is rung first.'
              : 'Ring your local food-safety authority first.'}
          </p>
        </Notice>
      )}
      {all.length === 0 ? null : (
        <ul className="rows">
          {all.map((n) => (
            <Told key={n.id} n={n} of={recall} zone={zone} />
          ))}
        </ul>
      )}
      <div className="buttons">
        <Button needs="decide.recall" disabled={!ready} onClick={() => setAdding('authority')}>
          Record that the authority was told
        </Button>
        <Button needs="decide.recall" disabled={!ready} onClick={() => setAdding('public')}>
          Record a notice to the public
        </Button>
      </div>
      {adding === undefined ? null : (
        <NotifiedForm
          recall={recall}
          to={adding}
          onClose={() => setAdding(undefined)}
          onRecorded={() => {
            setAdding(undefined);
            onRecorded();
          }}
        />
      )}
    </Section>
  );
}

/** What the service knows, and what this device has recorded that the service may not know of yet. */
export function useNotified({ id, notified }: RecallView): readonly NotifiedInCase[] {
  const { snapshot } = useTabletState();
  const known = new Set(notified.map((n) => n.id));
  const own = snapshot.recallNotified
    .filter((n) => n.recall === id && !known.has(n.id))
    .map(({ id: own, to, how, at, doneBy }) => {
      const by = snapshot.person.find((p) => p.id === doneBy)?.name ?? null;
      return { id: own, to, how, at, by, reference: null, spokeTo: null, said: null };
    });
  return [...notified, ...own];
}

function Told({ n, of: { openedAt, closedAt }, zone }: { readonly n: NotifiedInCase; readonly of: RecallView; readonly zone: string }) {
  return (
    <li className="row">
      <span className="row-main">
        <strong>{phrase(`notifiedTo.${n.to}`)}</strong>, {phrase(`notifiedHow.${n.how}`)}
        {n.spokeTo === null ? '' : `, to ${n.spokeTo}`}
        {n.reference === null ? '' : `, reference ${n.reference}`}
        {n.said === null ? null : <span className="contact-said">“{n.said}”</span>}
      </span>
      <span className="row-side">
        {dayTime(n.at, zone)}, {n.by ?? 'name withheld'}
        {n.at < openedAt ? ', before the case was opened' : ''}
        {closedAt !== null && n.at >= closedAt ? ', after the case was closed' : ''}
      </span>
    </li>
  );
}

const ways: Readonly<Record<NotifiedTo, readonly How[]>> = {
  authority: ['telephone', 'e-mail', 'in-writing', 'in-person', 'website', 'other'],
  public: ['notice-at-shop', 'website', 'social-media', 'press', 'other'],
};

interface FormProps {
  readonly recall: RecallView;
  readonly to: NotifiedTo;
  readonly onClose: () => void;
  readonly onRecorded: () => void;
}

function NotifiedForm({ recall, to, onClose, onRecorded }: FormProps) {
  const [how, setHow] = useState<How | null>(null);
  const [spokeTo, setSpokeTo] = useState('');
  const [reference, setReference] = useState('');
  const [said, setSaid] = useState('');
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const { act, busy, trouble } = useAct();
  const authority = to === 'authority';
  const record = async (): Promise<void> => {
    if (how === null) return;
    const words = authority ? { spokeTo, reference, said } : { said };
    if (await act({ kind: 'recall-notified', payload: { recall: recall.id, to, how }, words, ...whenWho })) onRecorded();
  };
  return (
    <Sheet title={authority ? 'The authority was told' : 'A notice to the public'} onClose={onClose}>
      {trouble}
      {recall.practice ? <p className="practice">Practice: say so first, and put up no notice.</p> : null}
      <Choice label="How" value={how} onChange={setHow} options={ways[to].map((w) => ({ value: w, text: phrase(`notifiedHow.${w}`) }))} />
      {authority ? (
        <>
          <Field label="Who you spoke to or wrote to" value={spokeTo} onChange={setSpokeTo} maxLength={200} />
          <Field label="Reference that the authority gave" value={reference} onChange={setReference} maxLength={120} />
          <Field label="What was said" value={said} onChange={setSaid} lines={3} maxLength={2000} />
        </>
      ) : (
        <Field label="Where the notice is, and what it says" value={said} onChange={setSaid} lines={3} maxLength={2000} />
      )}
      <WhenWho value={whenWho} onChange={setWhenWho} />
      <div className="buttons">
        <Button look="go" disabled={busy || how === null} onClick={() => void record()}>
          Record it
        </Button>
      </div>
    </Sheet>
  );
}
