import { nameOf, phrase, type Row } from '@bakehouse/domain';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { Button, Caution, Choice, Field, Screen } from '../../shared/ui';
import { paths, subjectPath } from '../../shared/night/paths';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';

const sorts = [
  'make',
  'load',
  'run',
  'batch',
  'lot',
  'place',
  'instrument',
  'site',
] as const satisfies readonly Row<'deviation'>['subjectSort'][];
type Class = Row<'deviation'>['class'];

/** Somebody says that something went wrong, in their own words. */
export function Wrong({ sort, subject }: { readonly sort: string; readonly subject: string }) {
  const { look, state } = useNight();
  const [, go] = useLocation();
  const [what, setWhat] = useState('');
  const [cls, setClass] = useState<Class>('should');
  const [holds, setHolds] = useState<'yes' | 'no'>('no');
  const { act, busy, trouble } = useAct();
  const subjectSort = sorts.find((s) => s === sort) ?? 'site';
  const save = async (): Promise<void> => {
    const done = await act({ kind: 'went-wrong', payload: { subjectSort, subject, class: cls, holds: holds === 'yes' }, words: { what } });
    if (done?.ok) go(paths.deviation(done.id));
  };
  return (
    <Screen
      title={`${nameOf(look, subjectSort, subject) ?? state.site.name}: something went wrong`}
      back={{ to: subjectPath(sort, subject), text: 'Back' }}
    >
      {trouble}
      <Field label="What went wrong, in a few words" value={what} onChange={setWhat} lines={3} maxLength={1000} />
      <Choice
        label="How grave"
        value={cls}
        onChange={setClass}
        options={(['must', 'should', 'note'] as const).map((c) => ({
          value: c,
          text: { must: 'somebody could be hurt', should: 'it should not happen', note: phrase('class.note') }[c],
        }))}
      />
      <Choice
        label="Keep it back until it is answered?"
        value={holds}
        onChange={setHolds}
        options={[
          { value: 'no', text: 'no' },
          { value: 'yes', text: 'yes, keep it back' },
        ]}
      />
      <div className="buttons">
        <Button look="go" disabled={busy || what.trim() === ''} onClick={() => void save()}>
          Record it
        </Button>
      </div>
      <Caution />
    </Screen>
  );
}
