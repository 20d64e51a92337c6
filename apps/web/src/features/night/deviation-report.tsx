import { namesFood, pointClass, subjectType as subjectTypes, type Row } from '@bakehouse/records';
import { nameOf } from '@bakehouse/views';
import { Link } from 'wouter';
import { lossReasons, ReasonField } from '../../shared/reason-field';
import { Button, Caution, Choice, Field, Screen } from '../../ui';
import { paths, subjectPath } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';
import { DoneAboutIt, PartOf } from './deviation-parts';
import { useDeviation } from './use-deviation';

const asked = 'What happened, in a few words';

/** Somebody reports a deviation: what happened, to how much of it, what was done, and what becomes of the food. One form, and one PIN at its end where it decides. */
export function DeviationReport({ type, subject }: { readonly type: string; readonly subject: string }) {
  const { lookup, state } = useNight();
  const subjectType = subjectTypes.safeParse(type).data ?? 'site';
  const d = useDeviation(subjectType, subject);
  const food = namesFood(subjectType);
  return (
    <Screen
      title={`${nameOf(lookup, subjectType, subject) ?? state.site.name}: deviation`}
      back={{ to: subjectPath(type, subject), text: 'Back' }}
    >
      {d.trouble}
      <div className="report">
        <div>
          {food ? (
            <ReasonField label="What happened?" words={asked} reasons={lossReasons} value={d.what} onChange={d.setWhat} maxLength={900} />
          ) : (
            <Field label={asked} value={d.what} onChange={d.setWhat} lines={3} maxLength={900} />
          )}
          {food ? <PartOf d={d} /> : null}
          <ClassChoice value={d.cls} onChange={d.setClass} />
          {food ? <HoldChoice d={d} /> : <NothingHeld place={subjectType === 'place' ? subject : null} />}
          <DoneAboutIt d={d} />
        </div>
        <Recorded d={d} />
      </div>
      <Caution />
    </Screen>
  );
}

type Deviation = ReturnType<typeof useDeviation>;
type Class = Row<'deviation'>['class'];
const classes: Readonly<Record<Class, string>> = {
  ccp: 'critical: somebody could be hurt',
  oprp: 'control: it should not happen',
  'process-check': 'check',
};

const ClassChoice = ({ value, onChange }: { readonly value: Class; readonly onChange: (cls: Class) => void }) => (
  <Choice label="Class" value={value} onChange={onChange} options={pointClass.options.map((c) => ({ value: c, text: classes[c] }))} />
);

const HoldChoice = ({ d }: { readonly d: Deviation }) => (
  <Choice
    label="Put it on hold until it is answered?"
    value={d.holds ? 'yes' : 'no'}
    onChange={(v) => d.setHolds(v === 'yes')}
    options={[
      { value: 'no', text: 'no' },
      { value: 'yes', text: 'yes, put it on hold' },
    ]}
  />
);

const NothingHeld = ({ place }: { readonly place: string | null }) => (
  <p>
    This puts nothing on hold: the record does not say which food it was. If food may be affected, put it on hold by its name, in{' '}
    <Link href={paths.stock}>the stock</Link> or at its dough. If it may be anything that was at a place,{' '}
    <Link href={place === null ? paths.holdPlace : paths.holdThisPlace(place)}>put the place on hold</Link>.
  </p>
);

/** What will be recorded, in words, and the one key for it. */
function Recorded({ d }: { readonly d: Deviation }) {
  return (
    <aside className="report-side" aria-label="What will be recorded">
      {d.says.map((line) => (
        <p key={line} className="report-says">
          {line}
        </p>
      ))}
      <div className="buttons main-key">
        <Button look="go" disabled={d.busy || !d.ready} onClick={d.save}>
          {d.signs ? 'Sign and record' : 'Record it'}
        </Button>
      </div>
      {d.pad}
    </aside>
  );
}
