import { unitText } from '@bakehouse/kernel';
import { payloadOf, type KindName } from '@bakehouse/records';
import type { SavedEntry } from '@bakehouse/offline';
import { codeOf } from '@bakehouse/views';
import { useState } from 'react';
import { codeText } from '../../shared/night/code-text';
import { fieldsOf } from '../../shared/night/fields-of';
import { useNight, type Night } from '../../shared/night/use-night';
import type { WhenAndWho } from '../../shared/night/when-who';
import { WhenWho } from '../../shared/night/when-who';
import { PhotoField } from '../../shared/photo-field';
import { Button, Choice, Field, FigureKey, figureOf, FigureSheet, type Option } from '../../ui';
import { Correction } from './correction';
import { leavesOf, recorded, withValue, without, type Leaf } from './leaves';
import { nameOfAnything } from './versions';

interface Props {
  readonly kind: KindName;
  readonly saved: SavedEntry;
  readonly root: string;
  readonly whenAndWho: WhenAndWho;
  readonly onDone: () => void;
}

/** Whatever has no form of its own to be filled in again: its figures, dates, lots, places and names, each said anew by itself. */
export function CorrectAnything({ kind, saved, root, whenAndWho, onDone }: Props) {
  const night = useNight();
  const [content, setContent] = useState<unknown>(saved.entry['payload']);
  const [words, setWords] = useState(() => wordsOf(saved));
  const [whenWho, setWhenWho] = useState(whenAndWho);
  const [asking, setAsking] = useState<Leaf>();
  const { leaves, removable } = leavesOf(
    content,
    (id) => nameOfAnything(night.lookup, id),
    // Its own lot is what a delivery made: another one is another line.
    (key) => kind !== 'delivery-received' || key !== 'lot',
  );
  const payload = payloadOf(kind, content);
  const set = (leaf: Leaf, text: string): void => setContent(withValue(content, leaf.path, recorded(leaf, text)));
  const figures = leaves.filter(isNumber);
  return (
    <Correction
      kind={kind}
      root={root}
      whenAndWho={whenWho}
      words={words}
      disabled={payload === undefined}
      payload={() => payload ?? never()}
      onDone={onDone}
    >
      <div className="figure-keys">
        {figures.map((l) => (
          <FigureKey
            key={l.path.join(' ')}
            name={titleOf(l)}
            figure={`${l.value ?? '–'} ${l.unit === null ? '' : unitText(l.unit)}`}
            onClick={() => setAsking(l)}
          />
        ))}
      </div>
      {leaves
        .filter((l) => !isNumber(l))
        .map((l) => (
          <OneLeaf key={l.path.join(' ')} leaf={l} night={night} onChange={(text) => set(l, text)} />
        ))}
      {removable.length === 0 ? null : (
        <div className="buttons">
          {removable.map((r) => (
            <Button key={r.path.join(' ')} look="quiet" onClick={() => setContent(without(content, r.path))}>
              {`Without ${r.about === '' ? 'this line' : r.about}`}
            </Button>
          ))}
        </div>
      )}
      {Object.entries(words).map(([key, text]) => (
        <Field
          key={key}
          label={key === 'note' ? 'A few words' : `Words: ${key}`}
          value={text}
          onChange={(t) => setWords({ ...words, [key]: t })}
          lines={2}
          maxLength={1000}
        />
      ))}
      <WhenWho value={whenWho} onChange={setWhenWho} />
      {asking === undefined ? null : (
        <CorrectedFigure leaf={asking} content={content} onChange={(text) => set(asking, text)} onClose={() => setAsking(undefined)} />
      )}
    </Correction>
  );
}

const never = (): never => {
  throw new Error('the key is off while the content does not fit');
};
const isNumber = ({ type }: Leaf): boolean => type === 'figure' || type === 'whole' || type === 'grams';
const titleOf = ({ about, name }: Leaf): string => (about === '' ? name : `${about}: ${name.toLowerCase()}`);

/** The words that it was recorded with; a correction says them again, but for the reason of an earlier one. */
function wordsOf({ entry }: SavedEntry): Record<string, string> {
  return Object.fromEntries(
    Object.entries(fieldsOf(entry['words'])).flatMap(([key, word]) => {
      const text = fieldsOf(word)['text'];
      return key === 'reason' || typeof text !== 'string' ? [] : [[key, text]];
    }),
  );
}

function OneLeaf({ leaf, night, onChange }: { readonly leaf: Leaf; readonly night: Night; readonly onChange: (text: string) => void }) {
  const value = leaf.value ?? '';
  if (leaf.type === 'photo') return <PhotoField label="Add a photo" value={leaf.value} onChange={(photo) => onChange(photo ?? '')} />;
  if (leaf.type === 'text' || leaf.type === 'date')
    return <Field label={titleOf(leaf)} type={leaf.type} value={value} onChange={onChange} maxLength={60} />;
  const options = optionsFor(leaf, night);
  return options.length < 2 ? null : <Choice label={titleOf(leaf)} value={value} onChange={onChange} options={options} />;
}

/** Others of the same type: lots of the same material, places of the same type, customers or suppliers. */
function optionsFor({ type, value, name }: Leaf, { state, lookup }: Night): Option<string>[] {
  const { snapshot, rows } = state;
  if (type === 'party') {
    const wanted =
      name === 'From whom' ? snapshot.party.filter((p) => p.type === 'supplier') : snapshot.party.filter((p) => p.type !== 'supplier');
    return [
      ...new Map(wanted.map((p) => [p.party, { value: p.party, text: p.name ?? 'no name' }])).values(),
      { value: '', text: 'not known' },
    ];
  }
  if (type === 'place') {
    const was = rows.get('place', value ?? '');
    const out = new Set(snapshot.placeOut.map((o) => o.place));
    return snapshot.place
      .filter((p) => p.id === value || (!out.has(p.id) && p.type === was?.type))
      .map((p) => ({ value: p.id, text: p.name }));
  }
  const was = rows.get('lot', value ?? '');
  if (!was) return [];
  const like = snapshot.lot.filter((l) => l.material === was.material && l.type === was.type).sort((a, b) => (a.at < b.at ? 1 : -1));
  const few = [...new Set([was, ...like.slice(0, 8)])];
  return few.map((l) => ({ value: l.id, text: codeText(codeOf(lookup, l.id)) }));
}

interface SheetProps {
  readonly leaf: Leaf;
  readonly content: unknown;
  readonly onChange: (text: string) => void;
  readonly onClose: () => void;
}

function CorrectedFigure({ leaf, onChange, onClose }: SheetProps) {
  const [typed, setTyped] = useState(leaf.value ?? '');
  const type = (text: string): void => {
    setTyped(text);
    const figure = figureOf(text);
    if (figure !== undefined) onChange(figure);
  };
  const celsius = leaf.unit === 'degC' || leaf.unit === 'degF';
  return (
    <FigureSheet
      title={titleOf(leaf)}
      onClose={onClose}
      label={leaf.name}
      {...(leaf.unit === null ? {} : { unit: unitText(leaf.unit) })}
      decimals={leaf.type !== 'whole' && leaf.unit !== 'piece'}
      negative={celsius}
      value={typed}
      onChange={type}
    />
  );
}
