import { useState } from 'react';
import { useLocation } from 'wouter';
import { whole } from '../../shared/format';
import { useAct } from '../../shared/use-act';
import { Button, LinkButton, Notice, NumberPad, Screen } from '../../ui';
import { paths } from '../../shared/night/paths';
import { WhenWho, type WhenAndWho } from '../../shared/night/when-who';
import { CountStock } from './count-stock';
import { Left } from './left';
import { useOnHand } from './use-on-hand';

const back = { to: paths.out, text: 'Send out' };

/** How many are really there: it closes the balance, and says how far the records were off. */
export function CountLot({ id }: { readonly id: string }) {
  const { night, products } = useOnHand();
  const [, go] = useLocation();
  const [pieces, setPieces] = useState('');
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const [difference, setDifference] = useState<number | null>();
  const { act, busy, trouble } = useAct();
  const batch = night.state.rows.get('batch', id);
  const lot = products.flatMap((p) => p.lots).find((l) => l.id === id);
  if (!batch) return <CountStock id={id} />;
  const save = async (): Promise<void> => {
    const done = await act({
      kind: 'lot-counted',
      ...whenWho,
      payload: { lot: id, place: null, quantity: { figure: pieces, unit: 'piece' } },
    });
    if (done?.outcome.difference === 0) go(paths.out);
    else if (done) setDifference(done.outcome.difference);
  };
  if (difference !== undefined)
    return (
      <Screen title={`${batch.productName}, ${batch.code}`} back={back} actions={<LinkButton to={paths.out}>Done</LinkButton>}>
        <Notice tone={difference === null ? 'good' : 'ask'} title={`Counted: ${whole(Number(pieces))}`}>
          <p>{differenceText(difference)}</p>
        </Notice>
      </Screen>
    );
  return (
    <Screen
      title={`${batch.productName}, ${batch.code}: count`}
      back={back}
      actions={
        <>
          <Button look="go" disabled={busy || pieces === ''} onClick={() => void save()}>
            Record the count
          </Button>
          <LinkButton to={paths.batch(id)}>The batch</LinkButton>
        </>
      }
    >
      {trouble}
      <p className="sum">{lot ? <Left left={lot.left} /> : 'By the records nothing is left.'}</p>
      <NumberPad label="Pieces that are there" value={pieces} decimals={false} maxDigits={5} onChange={setPieces} />
      <WhenWho value={whenWho} onChange={setWhenWho} />
    </Screen>
  );
}

function differenceText(difference: number | null): string {
  if (difference === null) return 'The records could not say how many there should be; from now on they start at this count.';
  return difference > 0
    ? `${whole(difference)} more than the records said. Something was counted short, or came back unrecorded.`
    : `${whole(-difference)} fewer than the records said. Something left that nobody recorded.`;
}
