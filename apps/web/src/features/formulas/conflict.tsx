import { merge } from '@bakehouse/domain';
import { wallTime } from '../../shared/format';
import { useTabletState } from '../../shared/tablet-context';
import { Button, Notice } from '../../shared/ui';
import type { Choices } from './choices';
import { differenceWords, placeWords, valueWords } from './places';
import type { Writing } from './use-draft';

/** Somebody saved meanwhile: what they changed, what you changed, what both did. Nothing of either is gone. */
export function ConflictNotice({
  writing: { conflict, together, putTogether, text },
  choices,
}: {
  readonly writing: Writing;
  readonly choices: Choices;
}) {
  const {
    site: { zone },
  } = useTabletState();
  if (!conflict) return null;
  const { by, at, away, theyChanged, iChanged, base, theirs, mine } = conflict;
  const { clashes } = merge(base ?? {}, together ? mine : text, theirs);
  const who = by.name ?? 'Somebody';
  const title = together
    ? 'Both are put together below. Look it over, then save.'
    : `${who} ${away ? 'put this away' : 'saved this'} at ${wallTime(at, zone)} while you were writing. Nothing of yours is lost.`;
  return (
    <Notice tone={together ? 'calm' : 'bad'} title={title}>
      <div className="two-sides">
        <div>
          <h3>{who} changed</h3>
          {theyChanged.length === 0 ? <p>nothing in the text</p> : <Changes of={theyChanged} choices={choices} />}
        </div>
        <div>
          <h3>You changed</h3>
          {iChanged.length === 0 ? <p>nothing in the text</p> : <Changes of={iChanged} choices={choices} />}
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
                  <td>{placeWords(c.path, choices)}</td>
                  <td>{valueWords(c.path, c.mine, choices)}</td>
                  <td>{valueWords(c.path, c.theirs, choices)}</td>
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

function Changes({ of, choices }: { readonly of: NonNullable<Writing['conflict']>['theyChanged']; readonly choices: Choices }) {
  return (
    <ul>
      {of.map((d, i) => (
        <li key={i}>{differenceWords({ before: undefined, after: undefined, ...d }, choices)}</li>
      ))}
    </ul>
  );
}
