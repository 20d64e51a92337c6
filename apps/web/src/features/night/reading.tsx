import { notTakenAnswer, phrase, subjectType as subjectTypes, type Judged, type NotTakenAnswer } from '@bakehouse/records';
import { nameOf } from '@bakehouse/views';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { Button, Caution, Empty, Screen } from '../../ui';
import { subjectPath, paths } from '../../shared/night/paths';
import { ReadingForm } from './reading-form';
import { ReadingResult } from './reading-result';
import type { ReadingOf } from './use-reading';
import { useAct } from '../../shared/use-act';
import { useNight } from '../../shared/night/use-night';

interface Params {
  readonly type: string;
  readonly subject: string;
  readonly point: string;
}

/** One reading: the pad, the verdict at once, and what to do about it. */
export function Reading({ type, subject, point: id }: Params) {
  const { state, lookup, view } = useNight();
  const point = state.rows.get('controlPoint', id);
  const due = view.due.find((d) => d.subject === subject && d.point === id);
  // A load that is in the oven is early however often it is read.
  const load = view.loads.find((l) => l.id === subject);
  const asksFrom = load?.now.in === true ? load.now.due : due?.again === null ? due.from : null;
  const subjectType = subjectTypes.safeParse(type).data;
  const [found, setFound] = useState<{ readonly entry: string; readonly judged: Judged; readonly figure: string }>();
  const back = { to: subjectPath(type, subject), text: 'Back' };
  if (!point || !subjectType)
    return (
      <Screen title="Reading" back={back}>
        <Empty>This control point is not on this tablet. Go back and choose it again.</Empty>
      </Screen>
    );
  const about = nameOf(lookup, subjectType, subject) ?? '';
  const of: ReadingOf = { subjectType, subject, point };
  const { content } = point;
  return (
    <Screen title={`${about}: ${content.parameter}`} back={back}>
      {found ? (
        <ReadingResult of={of} found={found.judged} entry={found.entry} figure={found.figure} onAgain={() => setFound(undefined)} />
      ) : (
        <ReadingForm of={of} dueFrom={asksFrom} onRecorded={(entry, judged, figure) => setFound({ entry, judged, figure })} />
      )}
      {found || !due ? null : <NotTaken of={of} />}
      <Caution />
    </Screen>
  );
}

/** No value: three different answers, one tap each. */
function NotTaken({ of: { subjectType, subject, point } }: { readonly of: ReadingOf }) {
  const [, go] = useLocation();
  const { act, busy, trouble } = useAct();
  const answer = async (given: NotTakenAnswer): Promise<void> => {
    if (await act({ kind: 'reading-not-taken', payload: { subjectType, subject, point: point.id, answer: given } })) go(paths.today);
  };
  return (
    <section className="section">
      <h2>No reading?</h2>
      {trouble}
      <div className="buttons">
        {notTakenAnswer.options.map((a) => (
          <Button key={a} disabled={busy} onClick={() => void answer(a)}>
            {phrase(`notTaken.${a}`)}
          </Button>
        ))}
      </div>
    </section>
  );
}
