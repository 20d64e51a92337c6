import { siteDay } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { wentThere, type ProductThere } from '@bakehouse/views';
import { useState } from 'react';
import { dayText, whole } from '../../shared/format';
import { Caution, Choice, Empty, Notice, Screen, Section } from '../../ui';
import { paths } from '../../shared/night/paths';
import { useNight, type Night } from '../../shared/night/use-night';
import { CameBack } from './came-back';
import { whoHadIt } from './who-had-it';

/** What somebody brought back: from whom, which product, how many and why. The lots are those of what went there. */
export function Returned() {
  const night = useNight();
  const had = whoHadIt(night.lookup);
  const [from, setFrom] = useState<string | null>(null);
  const [asked, setAsked] = useState<string>();
  const [done, setDone] = useState<string>();
  const who = had.find((h) => h.key === from);
  const there = who === undefined ? [] : wentThere(night.lookup, who.is);
  const product = there.find((p) => p.product === asked);
  return (
    <Screen title="Came back" back={{ to: paths.out, text: 'Send out' }}>
      {done === undefined ? null : <Notice tone="good" title={`On record: ${done}`} />}
      {had.length === 0 ? (
        <Empty>Nothing that could come back went out in the last two months, as far as this tablet knows.</Empty>
      ) : (
        <Choice
          label="From whom?"
          value={from}
          onChange={(key) => {
            setDone(undefined);
            setFrom(key);
          }}
          options={had.map((h) => ({ value: h.key, text: h.name ?? phrase(`channel.${h.channel}`) }))}
        />
      )}
      {who === undefined ? null : (
        <Section title="What came back?">
          <div className="figure-keys">
            {there.map((p) => (
              <button key={p.product} type="button" className="figure-key" onClick={() => setAsked(p.product)}>
                <span>{p.name}</span> <span>{went(p, night)}</span>
              </button>
            ))}
          </div>
        </Section>
      )}
      <Caution />
      {product && who ? (
        <CameBack key={product.product} product={product} from={who} onClose={() => setAsked(undefined)} onDone={setDone} />
      ) : null}
    </Screen>
  );
}

/** How many of it are there by the records, and when the last went. */
function went({ stillOut, went: [last] }: ProductThere, { state }: Night): string {
  const when = last === undefined ? '' : `last ${dayText(siteDay(last.at, state.site))}`;
  return stillOut === null ? when : `${whole(Math.max(0, stillOut))} there by the records, ${when}`;
}
