import { asking, inNameOf } from '@bakehouse/api-client';
import { signature } from '@bakehouse/contracts';
import { problems } from '@bakehouse/kernel';
import type { Saved } from '@bakehouse/offline';
import type { KindName, NewEntryOf } from '@bakehouse/records';
import { useTable } from './tablet-context';
import { troubleOf, type Trouble } from './trouble-of';

export type Signed<K extends KindName> =
  { readonly as: 'saved'; readonly saved: Saved<K> } | { readonly as: 'trouble'; readonly trouble: Trouble };

const unreached = 'What is signed is decided on line. What you typed stands here; sign when the network is back.';
const notKept: Trouble = { title: 'This tablet could not keep it', detail: 'Nothing was saved. Try again.' };

/** Records something in the name of the person signed on, signed by this PIN: the service signs exactly this entry, which then goes the way of all others. */
export function useSigned(): <K extends KindName>(pin: string, draft: NewEntryOf<K>) => Promise<Signed<K>> {
  const { tablet, person, people } = useTable();
  return async (pin, draft) => {
    let trouble = notKept;
    const recorded = await tablet
      .recordSigned(draft, person.id, async (entry) => {
        const reply = await asking({ as: inNameOf(people, person.id) })('post', '/signatures', signature, { body: { pin, entry } });
        if (reply.as === 'ok') return reply.value.signature;
        trouble = troubleOf(reply, unreached);
        return undefined;
      })
      .catch(() => undefined);
    if (!recorded) return { as: 'trouble', trouble };
    if (!recorded.ok) return { as: 'trouble', trouble: problems[recorded.problem] };
    await tablet.refresh();
    const fate = tablet.state.refused.find((e) => e.id === recorded.id)?.fate;
    if (fate?.as === 'refused') return { as: 'trouble', trouble: { title: fate.title, detail: fate.detail } };
    return { as: 'saved', saved: recorded };
  };
}
