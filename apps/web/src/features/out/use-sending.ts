import { how as hows } from '@bakehouse/kernel';
import type { OutcomeOf, PayloadFor } from '@bakehouse/records';
import type { ProductOnHand } from '@bakehouse/views';
import { useState } from 'react';
import { useAct } from '../../shared/use-act';
import type { WhenAndWho } from '../../shared/night/when-who';
import type { ChannelChoice } from './channels';
import { anyOf } from './left';
import { useOnHand } from './use-on-hand';

/** How a number of pieces is known. */
export const countedHow = hows.extract(['counted', 'by-recipe', 'estimated']);
type How = (typeof countedHow.options)[number];
export interface Taken {
  readonly pieces: string;
  /** One lot where somebody says which; else any of what is there. */
  readonly lot: string | null;
}

/** What one customer, or one type of leaving, takes of each product. */
export function useSending({ channel }: ChannelChoice) {
  const { night, products } = useOnHand();
  const [customer, setCustomer] = useState<string | null>(null);
  const [taken, setTaken] = useState<ReadonlyMap<string, Taken>>(new Map());
  const [left, setLeft] = useState<boolean | null>(null);
  const [how, setHow] = useState<How>('counted');
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const [note, setNote] = useState('');
  const [sent, setSent] = useState<{ readonly found: OutcomeOf<'sent-out'>; readonly to: string | null; readonly id: string }>();
  const { act, busy, trouble } = useAct();
  const party = night.state.snapshot.party.find((p) => p.party === customer);
  const unattended = left ?? party?.unattended ?? false;
  const lines = products.flatMap((p) => {
    const t = taken.get(p.product);
    return t === undefined || Number(t.pieces) === 0 ? [] : [lineOf(p, t, how)];
  });
  const save = async (): Promise<void> => {
    const words = note.trim() === '' ? {} : { words: { note } };
    const done = await act({ kind: 'sent-out', ...whenWho, ...words, payload: { channel, customer, unattended, until: null, lines } });
    if (done) setSent({ found: done.outcome, to: party?.name ?? null, id: done.id });
  };
  const next = (): void => {
    setTaken(new Map());
    setCustomer(null);
    setLeft(null);
    setNote('');
    setSent(undefined);
  };
  const take = (product: string, t: Taken): void => setTaken(new Map(taken).set(product, t));
  return {
    ...{ night, products, customer, setCustomer, taken, take, unattended, setLeft, how, setHow, whenWho, setWhenWho },
    ...{ note, setNote, lines, save, next, sent, busy, trouble },
  };
}
export type Sending = ReturnType<typeof useSending>;

const lineOf = (p: ProductOnHand, t: Taken, how: How): PayloadFor<'sent-out'>['lines'][number] => ({
  lots: t.lot === null ? anyOf(p) : [t.lot],
  quantity: { figure: t.pieces, unit: 'piece' },
  how,
});
