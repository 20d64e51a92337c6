import { recallList } from '@bakehouse/contracts';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { Link } from 'wouter';
import type * as z from 'zod';
import { whole } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Empty, Screen, Section, StateWord } from '../../ui';
import { Shown, useLoaded } from '../../shared/use-loaded';

type Cases = z.infer<typeof recallList>;

/** All recall cases, open ones first. */
export function Recalls() {
  const loaded = useLoaded('/recalls', recallList);
  return (
    <Screen title="Recalls" back={{ to: office.home, text: 'Office' }}>
      <p>
        A case begins at a lot: find it by its code on the office page, then “Open a recall”. A practice is opened the same way; it puts
        nothing on hold.
      </p>
      <Shown of={loaded}>
        {(cases) =>
          cases.length === 0 ? (
            <Empty>No case was ever opened here. A practice shows whether it would work.</Empty>
          ) : (
            <CaseRows cases={cases} />
          )
        }
      </Shown>
    </Screen>
  );
}

/** Cases that are open, for the office’s first page; nothing where there are none. */
export function OpenRecalls() {
  const { reply } = useLoaded('/recalls', recallList);
  const open = reply?.as === 'ok' ? reply.value.filter((c) => c.closedAt === null) : [];
  return open.length === 0 ? null : (
    <Section title="Open recalls">
      <CaseRows cases={open} />
    </Section>
  );
}

function CaseRows({ cases }: { readonly cases: Cases }) {
  const {
    site: { zone },
  } = useTabletState();
  return (
    <ul className="rows">
      {cases.map((c) => (
        <li key={c.id}>
          <Link href={office.recall(c.id)} className="row">
            {c.closedAt === null ? (
              <StateWord shape="gate" tone={c.practice ? 'ask' : 'bad'}>
                {c.practice ? 'practice, open' : 'open'}
              </StateWord>
            ) : (
              <StateWord shape="disc" tone="good">
                {c.practice ? 'practice, closed' : 'closed'}
              </StateWord>
            )}
            <span className="row-main">
              <strong>{c.hazardName}</strong> {phrase(`hazard.${c.hazard}` as PhraseKey)}, {whole(c.lots)} lots
            </span>
            <span className="row-side">{dayTime(c.openedAt, zone)}</span>
          </Link>
        </li>
      ))}
    </ul>
  );
}
