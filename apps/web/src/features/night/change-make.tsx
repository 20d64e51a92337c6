import type { Row } from '@bakehouse/records';
import { useState } from 'react';
import { Button, Choice, Field, Notice } from '../../ui';
import { useAct } from '../../shared/use-act';

interface Material {
  readonly id: string;
  readonly name: string;
}
interface Props {
  readonly make: Row<'make'>;
  readonly lines: readonly Material[];
  /** What else there is that could be used instead. */
  readonly others: readonly Material[];
}

const nothing = 'nothing';
const options = (materials: readonly Material[]) => materials.map(({ id, name }) => ({ value: id, text: name }));

/** This one mix was changed from its formula. Naming the materials is what lets the counter say what is in it; words alone leave that unknown. */
export function ChangeMake({ make, lines, others }: Props) {
  const [material, setMaterial] = useState<string | null>(null);
  const [instead, setInstead] = useState<string | null>(null);
  const [change, setChange] = useState('');
  const [done, setDone] = useState<string>();
  const { act, busy, trouble } = useAct();
  const named = (id: string | null): string | null => (id === nothing ? null : id);
  const toSay = named(instead) === null && change.trim() === '';
  const nameOf = (id: string | null): string | undefined => [...lines, ...others].find((m) => m.id === id)?.name;
  const typing = material !== null || instead !== null || change !== '';
  const save = async (): Promise<void> => {
    const payload = { make: make.id, material: named(material), instead: named(instead) };
    if (!(await act({ kind: 'one-off-changed', payload, words: change.trim() === '' ? {} : { change } }))) return;
    setDone(changeText(nameOf(material), nameOf(instead), change.trim()));
    setMaterial(null);
    setInstead(null);
    setChange('');
  };
  return (
    <details>
      <summary>Changed from the formula</summary>
      {trouble}
      <Choice
        label="What was changed"
        value={material}
        onChange={setMaterial}
        options={[...options(lines), { value: nothing, text: 'none of these' }]}
      />
      <Choice
        label="Used instead"
        value={instead}
        onChange={setInstead}
        options={[{ value: nothing, text: 'nothing else' }, ...options([...others, ...lines].filter((m) => m.id !== material))]}
      />
      <Field label="What was changed, in a few words" value={change} onChange={setChange} lines={2} maxLength={400} />
      {named(material) === null && named(instead) === null && change.trim() !== '' ? (
        <p className="hint">Words alone name no material: the counter will say that what is in it is not known.</p>
      ) : null}
      <Button disabled={busy || toSay || instead === null} onClick={() => void save()}>
        Record the change
      </Button>
      {done === undefined || typing ? null : <Notice tone="good" title={`On record: ${done}`} />}
    </details>
  );
}

/** What was changed, as it is said once it is on record. */
function changeText(changed: string | undefined, instead: string | undefined, words: string): string {
  const materials =
    changed === undefined
      ? instead === undefined
        ? []
        : [`${instead} used`]
      : [instead === undefined ? `${changed}, nothing used instead` : `${changed}, ${instead} used instead`];
  return [...materials, ...(words === '' ? [] : [words])].join('; ');
}
