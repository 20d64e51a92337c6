import { phrase } from '@bakehouse/records';
import { codeOf, type Lookup } from '@bakehouse/views';
import { Button, Caution, LinkButton, Notice, Screen } from '../../ui';
import { codeText } from '../../shared/night/code-text';
import { paths } from '../../shared/night/paths';
import { ofLot } from '../../shared/trace/words';
import { titleOf, type ChannelChoice } from './channels';
import { Left } from './left';
import type { Sending } from './use-sending';

/** What was recorded, and at once what is wrong with it. */
export function OnRecord({ choice, sending: s }: { readonly choice: ChannelChoice; readonly sending: Sending }) {
  const lines = s.sent?.found.lines ?? [];
  const troubled = lines.filter((l) => l.troubled.length > 0);
  const short = s.products.filter((p) => p.left !== null && p.left < 0);
  return (
    <Screen
      title={titleOf(choice, s.night.state.snapshot, s.night.now)}
      back={{ to: paths.out, text: 'Send out' }}
      actions={
        <>
          <Button look="go" onClick={s.next}>
            {choice.channel === 'round' ? 'Next drop' : 'One more'}
          </Button>
          <LinkButton to={paths.out}>Done</LinkButton>
          {s.sent ? <LinkButton to={paths.correct(s.sent.id)}>Correct it</LinkButton> : null}
        </>
      }
    >
      <Notice tone="good" title={`On record${s.sent?.to ? `: ${s.sent.to}` : ''}`}>
        <ul>
          {lines.map((l, i) => (
            <li key={i}>
              {ofLot(l)} {l.name}, {codesText(s.sent?.lots[i] ?? [], s.night.lookup)}
            </li>
          ))}
        </ul>
      </Notice>
      {troubled.map((l) => (
        <Notice key={l.name} tone="bad" title={`${l.name} should not have left`}>
          <p>
            {[...new Set(l.troubled.map((t) => phrase(`trouble.${t.trouble}`)))].join('; ')}. It is on record as a deviation: get it back or
            tell the person who decides, now.
          </p>
        </Notice>
      ))}
      {short.map((p) => (
        <Notice key={p.product} tone="ask" title={p.name}>
          <p>
            <Left left={p.left} />
          </p>
        </Notice>
      ))}
      <Caution />
    </Screen>
  );
}

/** The lot that went; where nobody said which, those of which it was one. */
const codesText = (lots: readonly string[], lookup: Lookup): string =>
  `lot ${lots.map((lot) => codeText(codeOf(lookup, lot))).join(' or ')}`;
