import { merge, type Difference } from '@bakehouse/kernel';
import { wallTime } from '../format';
import { useTabletState } from '../tablet-context';
import { Button, Notice } from '../../ui';
import type { Writing } from './use-draft';

/** How places and values of one type of draft are said. */
export interface DraftWords {
  place(path: readonly string[]): string;
  value(path: readonly string[], value: unknown): string;
  difference(d: Difference): string;
}

/** Somebody saved meanwhile: what they changed, what you changed, what both did. Nothing of either is gone. */
export function ConflictNotice({
  writing: { conflict, together, putTogether, text },
  words,
}: {
  readonly writing: Pick<Writing, 'conflict' | 'together' | 'putTogether' | 'text'>;
  readonly words: DraftWords;
}) {
  const {
    site: { zone },
  } = useTabletState();
  if (!conflict) return null;
  const { by, at, archived, theyChanged, iChanged, base, theirs, mine } = conflict;
  const { clashes } = merge(base ?? {}, together ? mine : text, theirs);
  const who = by.name ?? 'Somebody';
  const title = together
    ? 'Both are put together below. Look it over, then save.'
    : `${who} ${archived ? 'archived this' : 'saved this'} at ${wallTime(at, zone)} while you were writing. Nothing of yours is lost.`;
  return (
    <Notice tone={together ? 'calm' : 'bad'} title={title}>
      <div className="two-sides">
        <div>
          <h3>{who} changed</h3>
          {theyChanged.length === 0 ? <p>nothing in the text</p> : <Changes of={theyChanged} words={words} />}
        </div>
        <div>
          <h3>You changed</h3>
          {iChanged.length === 0 ? <p>nothing in the text</p> : <Changes of={iChanged} words={words} />}
        </div>
      </div>
      {clashes.length === 0 ? null : (
        <>
          <h3>Both changed the same</h3>
          <table className="lines">
            <thead>
              <tr>
                <th scope="col">What</th>
                <th scope="col">Yours</th>
                <th scope="col">{who}</th>
              </tr>
            </thead>
            <tbody>
              {clashes.map((c, i) => (
                <tr key={i}>
                  <td>{words.place(c.path)}</td>
                  <td>{words.value(c.path, c.mine)}</td>
                  <td>{words.value(c.path, c.theirs)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
      {together ? null : (
        <div className="buttons">
          <Button look="go" onClick={() => putTogether('mine')}>
            {clashes.length === 0 ? 'Put both together' : 'Put both together, mine where both changed'}
          </Button>
          {clashes.length === 0 ? null : (
            <Button onClick={() => putTogether('theirs')}>{`Put both together, ${who}’s where both changed`}</Button>
          )}
        </div>
      )}
    </Notice>
  );
}

function Changes({ of, words }: { readonly of: NonNullable<Writing['conflict']>['theyChanged']; readonly words: DraftWords }) {
  return (
    <ul>
      {of.map((d, i) => (
        <li key={i}>{words.difference({ before: undefined, after: undefined, ...d })}</li>
      ))}
    </ul>
  );
}
