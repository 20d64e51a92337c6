import type { RecallView } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';
import { notToldOf } from '@bakehouse/records';
import { useState } from 'react';
import { SignButton } from '../../shared/sign-button';
import { StaysOnHold } from '../../shared/stays-on-hold';
import { OnlyAPart } from '../../shared/trace/partial';
import { Field, For, Notice, Section } from '../../ui';
import { useNotified } from './notified';

interface Props {
  readonly recall: RecallView;
  /** The contact list with the calls of this device. */
  readonly ring: RecallView['trace']['contacts'];
  readonly onClosed: () => void;
}

/** To close a case: what stays on hold, who outside was not told and who was not reached, each with the reason why. */
export const Close = (props: Props) => (
  <For needs="decide.recall">
    <Closing {...props} />
  </For>
);

function Closing({ recall, ring, onClosed }: Props) {
  const [words, setWords] = useState<Readonly<Record<string, string>>>({});
  const { undecided } = recall;
  const open = useLeftOpen(recall, ring);
  const asked = ['conclusion', ...(undecided.length > 0 ? ['why'] : []), ...open.asks];
  const of = (key: string) => ({
    value: words[key] ?? '',
    onChange: (text: string) => setWords({ ...words, [key]: text }),
  });
  return (
    <Section title={recall.practice ? 'Practice: close the case' : 'Close the case'}>
      <OnlyAPart trace={recall.trace} />
      <p>
        Closing releases nothing. Each lot that the case holds stays on hold until it is decided on here, in the case, before or after
        closing.
      </p>
      <StaysOnHold lots={undecided} why={of('why').value} onWhy={of('why').onChange} />
      {open.notTold.includes('authority') ? (
        <>
          <Notice tone="bad" title="Nobody has recorded that the authority was told">
            <p>Ring it and record that above, or say why the case is closed without.</p>
          </Notice>
          <Field label="Why the authority is not recorded as told" {...of('whyAuthorityNotTold')} lines={2} maxLength={1000} required />
        </>
      ) : null}
      {open.notTold.includes('public') ? (
        <>
          <Notice tone="ask" title="No notice to the public is recorded">
            <p>Some cases need none, such as food that never left the house. Say why this one has none.</p>
          </Notice>
          <Field label="Why there is no notice to the public" {...of('whyNoNotice')} lines={2} maxLength={1000} required />
        </>
      ) : null}
      <NotReached recall={recall} customers={open.notReached} />
      {open.notReached.length === 0 || recall.practice ? null : (
        <Field label="Why they were not reached" {...of('whyNotReached')} lines={2} maxLength={1000} required />
      )}
      <Field label="What was found and done" {...of('conclusion')} lines={3} maxLength={2000} />
      <SignButton
        text="Sign and close"
        disabled={asked.some((key) => (words[key] ?? '').trim() === '')}
        draft={{
          kind: 'recall-closed',
          payload: {
            recall: recall.id,
            staysOnHold: undecided.map((l) => l.lot),
            notReached: recall.practice ? [] : open.notReached.map((c) => c.party),
          },
          words: Object.fromEntries(asked.map((key) => [key, words[key] ?? ''])),
        }}
        onDone={onClosed}
      />
    </Section>
  );
}

/** What a case would be closed over now, with what this device has recorded, and the reasons that are asked for. A practice is asked for none. */
function useLeftOpen(recall: RecallView, ring: Props['ring']) {
  const notified = useNotified(recall);
  const told = new Set(ring.flatMap((e) => (e.reached ? e.party : [])));
  const notReached = recall.notReached.filter((c) => !told.has(c.party));
  const notTold = recall.practice ? [] : notToldOf(notified);
  const asks = [
    ...(notTold.includes('authority') ? ['whyAuthorityNotTold'] : []),
    ...(notTold.includes('public') ? ['whyNoNotice'] : []),
    ...(notReached.length > 0 && !recall.practice ? ['whyNotReached'] : []),
  ];
  return { notTold, notReached, asks };
}

function NotReached({ recall, customers }: { readonly recall: RecallView; readonly customers: RecallView['notReached'] }) {
  if (customers.length === 0) return null;
  return (
    <Notice tone="ask" title={`${countText(customers.length, 'customer')} ${customers.length === 1 ? 'was' : 'were'} not reached`}>
      <ul>
        {customers.map((c) => (
          <li key={c.party}>{c.name ?? 'a customer of a site that you may not look at'}</li>
        ))}
      </ul>
      {recall.practice ? <p>This is a practice: it can be closed all the same.</p> : <p>Go on calling, or say why below.</p>}
    </Notice>
  );
}
