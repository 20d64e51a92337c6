import { actionType, phrase } from '@bakehouse/records';
import { deviationView, heldOf, nameOf, type DeviationView } from '@bakehouse/views';
import { useState } from 'react';
import { OnHold } from '../../shared/concerns';
import { whenText, whole } from '../../shared/format';
import { useTable } from '../../shared/tablet-context';
import { Button, Caution, Choice, Empty, Field, For, LinkButton, Screen, Section, StateWord } from '../../ui';
import { paths, subjectPath } from '../../shared/night/paths';
import { Decide } from './disposition';
import { BackIn } from './reading-result';
import { TakenBack } from '../../shared/taken-back';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';
import { CorrectIt } from './correct-it';
import { DecidedOnDeviation } from './deviation-decided';
import { CloseDeviation } from './close-deviation';
import { reasonsText } from './held-food';

/** A deviation: its corrective actions, the disposition of the food, its closing. */
export function Deviation({ id }: { readonly id: string }) {
  const { lookup, state, zone, now } = useNight();
  const { person } = useTable();
  const row = state.rows.get('deviation', id);
  const back = { to: paths.today, text: 'Today’s bake' };
  if (!row)
    return (
      <Screen title="Deviation" back={back}>
        <Empty>This is not on this tablet any more.</Empty>
      </Screen>
    );
  const d = deviationView(lookup, row);
  const names = new Map(state.snapshot.person.map((p) => [p.id, p.name]));
  const mayDecide = person.permissions.includes('decide.exception');
  return (
    <Screen
      title={`${nameOf(lookup, d.subjectType, d.subject) ?? state.site.name}: ${phrase(`deviation.${d.type}`)}`}
      back={{ to: subjectPath(d.subjectType, d.subject), text: 'Back' }}
    >
      <p className="sum">
        <DeviationState d={d} />
      </p>
      <p>
        <span className={`class ${d.class}`}>{phrase(`class.${d.class}`)}</span> {d.summary} · {whenText(d.at, now, zone)}
      </p>
      <RecordTakenBack d={d} />
      <Section title="Corrective action">
        {d.actions.length === 0 ? (
          <Empty>Nothing on record yet.</Empty>
        ) : (
          <ul className="rows">
            {d.actions.map((a) => (
              <li key={a.at} className="row">
                <span className="row-main">
                  {phrase(`action.${a.type}`)}
                  {a.action === null ? '' : `: ${a.action}`}
                </span>
                <span className="row-side">
                  {names.get(a.doneBy ?? '') ?? ''} {whenText(a.at, now, zone)}
                </span>
              </li>
            ))}
          </ul>
        )}
        {d.state === 'closed' ? null : <CorrectiveAction d={d} />}
        {row.point === null || d.state === 'closed' ? null : (
          <div className="buttons">
            <LinkButton to={paths.read(d.subjectType, d.subject, row.point)}>Read it again</LinkButton>
          </div>
        )}
      </Section>
      <div className="buttons">
        <CorrectIt entry={id} />
      </div>
      <DecidedOnDeviation d={d} />
      {d.state === 'closed' && d.undecided.length === 0 ? null : (
        <For needs="decide.exception">
          <details className="section" open={mayDecide}>
            <summary>
              {d.state === 'closed' ? 'Decide what stayed on hold, signed with a PIN' : 'Decide and close, signed with a PIN'}
            </summary>
            <Decide d={d} />
            {d.state === 'closed' ? null : <CloseDeviation d={d} />}
          </details>
        </For>
      )}
      <Caution />
    </Screen>
  );
}

/** What became of its record: a correction undoes no decision of a person's. */
function RecordTakenBack({ d }: { readonly d: DeviationView }) {
  if (d.takenBack === null) return null;
  return (
    <p>
      <TakenBack of={d.takenBack} />.{' '}
      {d.state === 'closed' ? 'What was decided stands.' : 'The deviation stays open until somebody closes it, signed.'}
    </p>
  );
}

/** What it is about may be on hold all the same, for something else. */
function HeldOtherwise({ lot }: { readonly lot: string }) {
  const held = heldOf(useNight().lookup, lot);
  return held === null ? null : (
    <>
      <OnHold />
      <span>{reasonsText(held)}</span>
    </>
  );
}

function DeviationState({ d }: { readonly d: DeviationView }) {
  switch (d.state) {
    case 'holds':
      return (
        <StateWord shape="gate" tone="bad">
          on hold until it is answered
        </StateWord>
      );
    case 'open':
      return (
        <>
          <StateWord shape="ring" tone="calm">
            {d.actions.length > 0 ? 'answered, not closed yet' : 'noted; it holds nothing itself'}
          </StateWord>
          <HeldOtherwise lot={d.subject} />
        </>
      );
    case 'closed':
      return d.undecided.length > 0 ? (
        <>
          <StateWord shape="gate" tone="bad">
            {`closed; ${whole(d.undecided.length)} on hold: what is left of the food is still to be decided on`}
          </StateWord>
          {d.whyOnHold === null ? null : <span>“{d.whyOnHold}”</span>}
        </>
      ) : (
        <StateWord shape="disc" tone="good">
          {d.selfReview ? 'closed, by the one who did it' : 'closed'}
        </StateWord>
      );
  }
}

/** Back in the oven has a key of its own. */
const actions = actionType.exclude(['back-in-the-oven']).options;

const CorrectiveAction = (of: { readonly d: DeviationView }) => (
  <For needs="record">
    <CorrectiveForm {...of} />
  </For>
);

function CorrectiveForm({ d }: { readonly d: DeviationView }) {
  const [type, setType] = useState<(typeof actions)[number] | null>(null);
  const [action, setAction] = useState('');
  const { act, busy, trouble } = useAct();
  const save = async (): Promise<void> => {
    if (type && (await act({ kind: 'corrective-action-taken', payload: { deviation: d.id, type }, words: { action } }))) {
      setAction('');
      setType(null);
    }
  };
  return (
    <>
      {trouble}
      {d.subjectType === 'load' ? <BackIn load={d.subject} deviation={d.id} /> : null}
      <Choice
        label={d.subjectType === 'load' ? 'Or' : 'It was'}
        value={type}
        onChange={setType}
        options={actions.map((s) => ({ value: s, text: phrase(`action.${s}`) }))}
      />
      {type === null ? null : (
        <>
          <Field
            label={type === 'other' ? 'What was done, in a few words' : 'A few words, if you like'}
            value={action}
            onChange={setAction}
            lines={2}
            maxLength={400}
          />
          <Button look="go" disabled={busy || (type === 'other' && action.trim() === '')} onClick={() => void save()}>
            Record the corrective action
          </Button>
        </>
      )}
    </>
  );
}
