import { codeOf, saidOf } from '@bakehouse/views';
import { TroubleWord } from '../../shared/concerns';
import { codeText } from '../../shared/night/code-text';
import { useNight } from '../../shared/night/use-night';
import { StateWord } from '../../ui';

/** A lot that is proposed: its code, and at once why it should not be used where something speaks against it. */
export function LotCell({ lot }: { readonly lot: string }) {
  const { lookup } = useNight();
  return (
    <>
      {codeText(codeOf(lookup, lot))} <LotTrouble lot={lot} />
    </>
  );
}

/** Why a lot should not be used, where it is offered by something else than its code. */
export function LotTrouble({ lot }: { readonly lot: string | null }) {
  const { lookup } = useNight();
  return lot === null ? null : <TroubleWord trouble={saidOf(lookup, lot)} />;
}

/** That a pack is open for longer than its specification allows. */
export function OpenTooLong() {
  return (
    <StateWord shape="diamond" tone="ask">
      open too long
    </StateWord>
  );
}
