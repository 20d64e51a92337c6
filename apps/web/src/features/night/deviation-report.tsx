import { namesFood, pointClass, subjectType as subjectTypes, type Row } from '@bakehouse/records';
import { nameOf } from '@bakehouse/views';
import { useState } from 'react';
import { Link, useLocation } from 'wouter';
import { Button, Caution, Choice, Field, Screen } from '../../ui';
import { paths, subjectPath } from '../../shared/night/paths';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';

type Class = Row<'deviation'>['class'];

/** Somebody reports a deviation, in their own words. */
export function DeviationReport({ type, subject }: { readonly type: string; readonly subject: string }) {
  const { lookup, state } = useNight();
  const [, go] = useLocation();
  const [what, setWhat] = useState('');
  const [cls, setClass] = useState<Class>('oprp');
  const [holds, setHolds] = useState<'yes' | 'no'>('no');
  const { act, busy, trouble } = useAct();
  const subjectType = subjectTypes.safeParse(type).data ?? 'site';
  const save = async (): Promise<void> => {
    const done = await act({
      kind: 'deviation-reported',
      payload: { subjectType, subject, class: cls, holds: holds === 'yes' },
      words: { what },
    });
    if (done) go(paths.deviation(done.id));
  };
  return (
    <Screen
      title={`${nameOf(lookup, subjectType, subject) ?? state.site.name}: deviation`}
      back={{ to: subjectPath(type, subject), text: 'Back' }}
    >
      {trouble}
      <Field label="What happened, in a few words" value={what} onChange={setWhat} lines={3} maxLength={1000} />
      <Choice
        label="Class"
        value={cls}
        onChange={setClass}
        options={pointClass.options.map((c) => ({
          value: c,
          text: { ccp: 'critical: somebody could be hurt', oprp: 'control: it should not happen', 'process-check': 'check' }[c],
        }))}
      />
      {namesFood(subjectType) ? (
        <Choice
          label="Put it on hold until it is answered?"
          value={holds}
          onChange={setHolds}
          options={[
            { value: 'no', text: 'no' },
            { value: 'yes', text: 'yes, put it on hold' },
          ]}
        />
      ) : (
        <p>
          This puts nothing on hold: the record does not say which food it was. If food may be affected, put it on hold by its name, in{' '}
          <Link href={paths.stock}>the stock</Link> or at its dough.
        </p>
      )}
      <div className="buttons">
        <Button look="go" disabled={busy || what.trim() === ''} onClick={() => void save()}>
          Record it
        </Button>
      </div>
      <Caution />
    </Screen>
  );
}
