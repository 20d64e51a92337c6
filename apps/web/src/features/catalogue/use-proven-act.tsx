import { useTable } from '../../shared/tablet-context';
import { useAct, type Act } from '../../shared/use-act';
import { useWho } from '../../shared/who';

const pinNeeded = {
  as: 'problem',
  status: 403,
  problem: { problem: 'pin-needed', title: 'Your PIN', detail: 'Give your PIN first.' },
  document: null,
} as const;

/** Asks for the PIN of the person signed on, unless it was given already; whether it was given. */
export function useProven(): () => Promise<boolean> {
  const { people, person, as } = useWho();
  return async () => {
    const given = await as<true>(() => Promise.resolve(people.isProven(person.id) ? { as: 'ok', value: true } : pinNeeded));
    return given.as === 'ok';
  };
}

/** Recording what a tapped name may not decide: the PIN is asked for first, and what was typed waits behind it. */
export function useProvenAct(): Act {
  const { act, ...rest } = useAct();
  const prove = useProven();
  const { tablet } = useTable();
  const proven: Act['act'] = async (entry, before) => {
    if (!(await prove())) return undefined;
    const recorded = await act(entry, before);
    if (recorded) await tablet.refresh(); // what is decided on line is sent before the page is asked for again
    return recorded;
  };
  return { ...rest, act: proven };
}
