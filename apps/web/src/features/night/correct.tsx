import { kindOf } from '@bakehouse/records';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { dayTime } from '../../shared/trace/words';
import { Button, Empty, Screen, Section } from '../../ui';
import { aboutEntry } from './about-entry';
import { paths } from '../../shared/night/paths';
import { CorrectForm } from './correct-forms';
import { Fate } from './recent';
import { useNight } from '../../shared/night/use-night';
import { Withdraw } from './withdraw';

/** One thing that was recorded: corrected with a reason, or taken back whole. Both stay readable; nothing is rubbed out. */
export function Correct({ id }: { readonly id: string }) {
  const { state, lookup, zone } = useNight();
  const [, go] = useLocation();
  const [withdrawing, setWithdrawing] = useState(false);
  const saved = state.recent.find((e) => e.id === id);
  const back = { to: paths.recent, text: 'Recent entries' };
  if (!saved)
    return (
      <Screen title="A record" back={back}>
        <Empty>This record is not on this tablet any more.</Empty>
      </Screen>
    );
  const kind = kindOf(saved.entry);
  const corrects = typeof saved.entry['corrects'] === 'string' ? saved.entry['corrects'] : undefined;
  const later = state.recent.filter((e) => e.entry['corrects'] === (corrects ?? id) && e.seq > saved.seq && e.fate.as !== 'refused');
  const canBe = later.length === 0 && saved.fate.as !== 'refused' && kind?.name !== 'entry-withdrawn' && kind?.signed === null;
  return (
    <Screen title={kind?.phrase ?? 'A record'} back={back}>
      <p className="sum">
        <Fate e={saved} />
      </p>
      <p>{[aboutEntry(lookup, saved), `typed ${dayTime(saved.savedAt, zone)}`].filter((part) => part !== '').join(' · ')}</p>
      {later.length > 0 ? (
        <p>
          {later.some((e) => e.entry['kind'] === 'entry-withdrawn')
            ? 'It was taken back since.'
            : 'It was corrected since; the newer one is on the list.'}
        </p>
      ) : null}
      {canBe ? (
        <Section title="Correct it">
          <CorrectForm saved={saved} root={corrects ?? id} />
        </Section>
      ) : null}
      {canBe ? (
        <Section title="It should not be there at all">
          <div className="buttons">
            <Button look="grave" onClick={() => setWithdrawing(true)}>
              Take it back
            </Button>
          </div>
        </Section>
      ) : null}
      {withdrawing ? (
        <Withdraw
          root={corrects ?? id}
          what={`${kind?.phrase ?? 'A record'}: ${aboutEntry(lookup, saved)}`}
          onDone={() => go(paths.recent)}
          onClose={() => setWithdrawing(false)}
        />
      ) : null}
    </Screen>
  );
}
