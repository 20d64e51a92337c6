import { kindOf } from '@bakehouse/records';
import type { SavedEntry } from '@bakehouse/offline';
import { wallTime } from '../../shared/format';
import { useTable } from '../../shared/tablet-context';
import { Button, Empty, For, Notice, RowLink, Screen, Section, StateWord } from '../../ui';
import { aboutEntry } from './about-entry';
import { paths } from '../../shared/night/paths';
import { useNight } from '../../shared/night/use-night';
import { fieldsOf } from '../../shared/night/fields-of';
import { isWithdrawn, whatChanged } from './versions';

/** The recent entries of this tablet, how far it has come, and what a person must look at. */
export function Recent() {
  const { state } = useNight();
  const shown = state.recent.filter((e) => !(e.fate.as === 'refused' && !e.fate.archived)).slice(0, 80);
  return (
    <Screen title="Recent entries on this tablet">
      {state.refused.length === 0 ? null : (
        <Section title="To look at">
          <ul className="rows">
            {state.refused.map((e) => (
              <RefusedEntry key={e.seq} e={e} />
            ))}
          </ul>
        </Section>
      )}
      {shown.length === 0 ? (
        <Empty>Nothing was typed on this tablet in the last day and a half.</Empty>
      ) : (
        <ul className="rows">
          {shown.map((e) => (
            <Entry key={e.seq} e={e} />
          ))}
        </ul>
      )}
    </Screen>
  );
}

function Entry({ e }: { readonly e: SavedEntry }) {
  const { lookup, zone, state } = useNight();
  const who = state.snapshot.person.find((p) => p.id === e.typedBy)?.name ?? '';
  const changed = whatChanged(state.recent, e, lookup);
  const reason = fieldsOf(fieldsOf(e.entry['words'])['reason'])['text'];
  const what = (
    <>
      <strong>{kindOf(e.entry)?.phrase ?? 'A record'}</strong> {aboutEntry(lookup, e)}
    </>
  );
  return (
    <li>
      <RowLink to={paths.correct(e.id)}>
        <Fate e={e} />
        <span className="row-main">
          {isWithdrawn(state.recent, e) ? (
            <>
              <s>{what}</s> taken back
            </>
          ) : (
            what
          )}
          {changed.length === 0 ? null : <span className="row-changes">{changed.slice(0, 3).join('; ')}</span>}
          {typeof reason === 'string' ? <span className="row-changes faint">{reason}</span> : null}
        </span>
        <span className="row-side">
          {who} {wallTime(e.savedAt, zone)}
        </span>
      </RowLink>
    </li>
  );
}

export function Fate({ e }: { readonly e: SavedEntry }) {
  switch (e.fate.as) {
    case 'recorded':
      return (
        <StateWord shape="disc" tone="good">
          recorded
        </StateWord>
      );
    case 'to-send':
      return (
        <StateWord shape="bar" tone="calm">
          to be sent
        </StateWord>
      );
    case 'waiting':
      return (
        <StateWord shape="bar" tone="ask">
          waits for another
        </StateWord>
      );
    case 'refused':
      return (
        <StateWord shape="diamond" tone="calm">
          refused
        </StateWord>
      );
  }
}

/** The bakehouse's computer did not take it. It stays here, whatever is answered. */
function RefusedEntry({ e }: { readonly e: SavedEntry }) {
  const { lookup, zone } = useNight();
  const { tablet } = useTable();
  if (e.fate.as !== 'refused') return null;
  const { title, detail, acceptable } = e.fate;
  return (
    <li>
      <Notice tone="bad" title={`${kindOf(e.entry)?.phrase ?? 'A record'}, ${wallTime(e.savedAt, zone)}: ${title}`}>
        <p>{aboutEntry(lookup, e)}</p>
        <p>
          {detail}
          {acceptable === null ? '' : ` Acceptable: ${acceptable}.`}
        </p>
        <For needs="record">
          <div className="buttons">
            <Button look="go" onClick={() => void tablet.answer(e, 'again')}>
              Send it again
            </Button>
            <Button onClick={() => void tablet.answer(e, 'archived')}>Dismiss</Button>
          </div>
        </For>
        <p className="faint">
          Dismissed, it stays on this tablet and on the list of what was refused. What is right is then recorded anew.
        </p>
      </Notice>
    </li>
  );
}
