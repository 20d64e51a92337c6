import { useState } from 'react';
import { useLocation } from 'wouter';
import { TroubleWord } from '../../shared/concerns';
import { mass } from '../../shared/format';
import { HoldLot } from '../../shared/hold-lot';
import { useAct } from '../../shared/use-act';
import { AmountPad, unitsName, unitsOf, useAmount } from '../../shared/amount-pad';
import { Button, LinkButton, Notice, Screen } from '../../ui';
import { codeText } from '../../shared/night/code-text';
import { NotHere } from '../../shared/night/not-here';
import { paths } from '../../shared/night/paths';
import { WhenWho, type WhenAndWho } from '../../shared/night/when-who';
import { LeftMg, useStock } from './stock';

const back = { to: paths.stock, text: 'In stock' };

/** What is really there of an ingredient, by weight, and how far the records were off. */
export function CountStock({ id }: { readonly id: string }) {
  const { lots, night } = useStock();
  const amount = useAmount(unitsOf(night.lookup, id));
  const [, go] = useLocation();
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const [found, setFound] = useState<{ readonly title: string; readonly text: string }>();
  const { act, busy, trouble } = useAct();
  const lot = lots.find((l) => l.id === id);
  const { quantity } = amount;
  if (found)
    return (
      <Screen title={found.title} back={back} actions={<LinkButton to={paths.stock}>Done</LinkButton>}>
        <Notice tone="ask" title={`Counted: ${amount.typed} ${unitsName(amount.unit)}`}>
          <p>{found.text}</p>
        </Notice>
      </Screen>
    );
  if (!lot) return <NotHere title="Count" back={back} what="lot" />;
  const title = `${lot.name}, ${codeText(lot.code)}`;
  const save = async (): Promise<void> => {
    if (quantity === null) return;
    const done = await act({ kind: 'lot-counted', ...whenWho, payload: { lot: id, place: null, quantity } });
    if (!done) return;
    const { difference } = done.outcome;
    if (difference === 0) go(paths.stock);
    else setFound({ title, text: differenceText(difference) });
  };
  return (
    <Screen
      title={`${title}: count`}
      back={back}
      actions={
        <>
          <Button look="go" disabled={busy || quantity === null} onClick={() => void save()}>
            Record the count
          </Button>
          <HoldLot lot={id} name={title} />
        </>
      }
    >
      {trouble}
      <p className="sum">
        <LeftMg of={lot} /> <TroubleWord trouble={lot.said} />
      </p>
      <AmountPad label="How much is there" amount={amount} />
      <WhenWho value={whenWho} onChange={setWhenWho} />
    </Screen>
  );
}

function differenceText(difference: number | null): string {
  if (difference === null) return 'The records could not say how much there should be; from now on they start at this count.';
  return difference > 0
    ? `${mass(difference)} more than the records said. Less was used than was written down, or more came.`
    : `${mass(-difference)} less than the records said. Something was used or left that nobody recorded.`;
}
