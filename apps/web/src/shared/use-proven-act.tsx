import { useTable } from './tablet-context';
import { useAct, type Act } from './use-act';
import { useProven } from './use-proven';

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
