import { codeOf, type DeviationView } from '@bakehouse/views';
import { useState } from 'react';
import { codeText } from '../../shared/night/code-text';
import { useNight } from '../../shared/night/use-night';
import { SignButton } from '../../shared/sign-button';
import { StaysOnHold } from '../../shared/stays-on-hold';
import { Field } from '../../ui';

/** The review and the close: what nobody decided about is stated, and stays on hold. */
export function CloseDeviation({ d }: { readonly d: DeviationView }) {
  const { lookup } = useNight();
  const [review, setReview] = useState('');
  const [why, setWhy] = useState('');
  const lots = d.undecided.map(({ id, name }) => ({ lot: id, name, code: codeText(codeOf(lookup, id)) }));
  return (
    <>
      <StaysOnHold lots={lots} why={why} onWhy={setWhy} />
      <Field label="Review, in a few words" value={review} onChange={setReview} lines={2} maxLength={400} />
      <SignButton
        text="Sign and close"
        disabled={lots.length > 0 && why.trim() === ''}
        draft={{
          kind: 'deviation-closed',
          payload: { deviation: d.id, staysOnHold: lots.map((l) => l.lot) },
          words: lots.length > 0 ? { review, why } : { review },
        }}
      />
    </>
  );
}
