import { askingIfChanged } from '@bakehouse/api-client';
import { counterView, type CounterView } from '@bakehouse/contracts';
import { annexTwo } from '@bakehouse/kernel';
import { systemClock } from '@bakehouse/offline';
import { useCallback, useEffect, useRef, useState } from 'react';
import { dayText, wallTime, whenText } from '../../shared/format';
import { Caution, Empty, Notice, Screen, Section } from '../../ui';
import { Answers } from './answers';
import { WhichSite } from './which-site';
import { DoNotSell } from './do-not-sell';
import { Everything } from './everything';
import { entryName, named } from '../../shared/contents-words';
import { troubleOf } from '../../shared/trouble-of';
import { TroubleNotice } from '../../shared/trouble-notice';

/** Older than this it is no answer any more: something else may have been opened since. */
const freshMs = 5 * 60_000;

/** The counter's own page, without sign-on: does this have sesame? From what was used today. */
export function Counter({ site }: { readonly site: string | undefined }) {
  const [view, setView] = useState<CounterView>();
  const [trouble, setTrouble] = useState<{ readonly title: string; readonly detail: string }>();
  const [stale, setStale] = useState(false);
  const [which, setWhich] = useState(false);
  const tag = useRef<string | null>(null);
  const load = useCallback(async (): Promise<void> => {
    const ask = askingIfChanged();
    const reply = await (site === undefined
      ? ask(tag.current, '/counter', counterView)
      : ask(tag.current, '/counter/{site}', counterView, { params: { path: { site } } }));
    if (reply.as === 'ok') {
      const { value } = reply;
      if (value.changed) tag.current = value.tag;
      setView((held) => (value.changed ? value.value : held && { ...held, asOf: value.asOf }));
    }
    setWhich(reply.as === 'problem' && reply.problem.problem === 'which-site');
    setTrouble(
      reply.as === 'ok'
        ? undefined
        : troubleOf(reply, 'This page cannot say what was used today. Ask the baker; if nobody can say, say that it is not known.'),
    );
  }, [site]);
  useEffect(() => {
    void load();
    const handle = setInterval(() => void load(), 60_000);
    return () => clearInterval(handle);
  }, [load]);
  useEffect(() => {
    const check = (): void => setStale(view !== undefined && systemClock.now().getTime() - Date.parse(view.asOf) > freshMs);
    check();
    const handle = setInterval(check, 15_000);
    return () => clearInterval(handle);
  }, [view]);
  const failed = trouble ? <TroubleNotice of={trouble} /> : null;
  if (which) return <WhichSite />;
  if (!view)
    return (
      <Screen title="What is in it?">
        {failed ?? (
          <p className="loading" role="status">
            One moment…
          </p>
        )}
      </Screen>
    );
  return (
    <Screen title="What is in it today?">
      <p className="faint">
        {view.site.name}, {dayText(view.day)}, as of {wallTime(view.asOf, view.site.zone)}
      </p>
      {failed}
      {stale ? (
        <Notice tone="bad" title="This is old: do not answer from it">
          <p>It could not be renewed for some minutes. Ask the baker.</p>
        </Notice>
      ) : (
        <Today view={view} />
      )}
      <Caution />
    </Screen>
  );
}

function Today({ view }: { readonly view: CounterView }) {
  const [asked, setAsked] = useState<string>();
  const entry = annexTwo.find((e) => e.entry === asked);
  const { zone } = view.site;
  const outOfDate = view.products.filter((p) => p.notOnTicket.length > 0 || p.staleSince !== null);
  if (view.products.length === 0)
    return (
      <>
        <DoNotSell held={view.held} now={view.asOf} zone={zone} />
        <Empty>Nothing was counted out today and nothing stands on the counter by the records. Ask the baker.</Empty>
      </>
    );
  return (
    <>
      <Section title="What do they ask about?">
        <div className="allergens" role="group" aria-label="Allergens">
          {annexTwo.map((e) => (
            <button
              key={e.entry}
              type="button"
              className="button plain"
              aria-pressed={e.entry === asked}
              onClick={() => setAsked(e.entry === asked ? undefined : e.entry)}
            >
              {entryName(e)}
            </button>
          ))}
        </div>
      </Section>
      {entry ? <Answers entry={entry} products={view.products} /> : null}
      <DoNotSell held={view.held} now={view.asOf} zone={zone} />
      {outOfDate.length === 0 ? null : (
        <Notice tone="bad" title="Tickets and labels may be out of date">
          <ul>
            {outOfDate.map((p) => (
              <li key={p.product}>
                <strong>{p.name}</strong>:{' '}
                {p.notOnTicket.length === 0 ? 'made with another lot than usual' : `today also ${named(p.notOnTicket)}`}
                {p.staleSince === null ? '' : `, since ${whenText(p.staleSince, view.asOf, zone)}`}
              </li>
            ))}
          </ul>
          <p>Take these tickets away and write new ones.</p>
        </Notice>
      )}
      {view.opened.map((o) => (
        <p key={`${o.at} ${o.how}`}>
          At {whenText(o.at, view.asOf, zone)}{' '}
          {o.how === 'opened' ? 'something was opened that' : 'a new specification of something already here says that it'} brings in{' '}
          {named([...o.contains, ...o.mayContain])}. Check the tickets of what is made with it.
        </p>
      ))}
      {entry ? null : <Everything products={view.products} />}
      <p>
        By what was recorded as used today and what its specifications say; what nobody has checked is not known. Everything is made in one
        bakehouse: flour dust, nuts and seeds get about. Tell that to everybody with a strong allergy too.
      </p>
    </>
  );
}
