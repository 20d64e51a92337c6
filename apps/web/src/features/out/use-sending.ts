import { how as hows } from '@bakehouse/kernel';
import type { OutcomeOf, PayloadFor } from '@bakehouse/records';
import { ordersOf, type ProductOnHand } from '@bakehouse/views';
import { useMemo, useState } from 'react';
import { useAct } from '../../shared/use-act';
import type { WhenAndWho } from '../../shared/night/when-who';
import type { ChannelChoice } from './channels';
import { anyOf } from './left';
import { goes, roundLines, type Taken } from './round-lines';
import { onlyOf, untilOf, type StallSaid } from './stall-and-shop';
import { useOnHand } from './use-on-hand';

/** How a number of pieces is known. */
export const countedHow = hows.extract(['counted', 'by-recipe', 'estimated']);
type How = (typeof countedHow.options)[number];

/** What one customer, or one type of leaving, takes of each product: what they had last, with what is different this time. */
export function useSending({ channel }: ChannelChoice) {
  const { night, products } = useOnHand();
  const [customer, choose] = useState<string | null>(() => onlyOf(channel, night.state.snapshot));
  const [stall, setStall] = useState<StallSaid>({ place: '', until: '' });
  const [changed, setChanged] = useState<ReadonlyMap<string, Taken>>(new Map());
  const [again, setAgain] = useState(false);
  const [left, setLeft] = useState<boolean | null>(null);
  const [how, setHow] = useState<How>('counted');
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const [note, setNote] = useState('');
  const [sent, setSent] = useState<{ readonly found: OutcomeOf<'sent-out'>; readonly to: string | null; readonly id: string }>();
  const { act, busy, trouble } = useAct();
  const { lookup, state } = night;
  const party = state.snapshot.party.findLast((p) => p.party === customer);
  const unattended = left ?? party?.unattended ?? false;
  const orders = useMemo(() => (customer === null ? null : ordersOf(lookup, customer, state.site)), [lookup, customer, state.site]);
  // Who had something today has had the order: filled in once more, it would go twice.
  const order = orders === null || (orders.today !== null && !again) ? null : orders.last;
  const asked = roundLines(order, changed, products);
  const lines = asked.flatMap((l) => (l.onHand === undefined || goes(l) === 0 ? [] : [lineOf(l.onHand, l, how)]));
  const save = async (): Promise<void> => {
    const said = [stall.place.trim() === '' ? '' : `stall: ${stall.place.trim()}`, note.trim()].filter((w) => w !== '').join('; ');
    const words = said === '' ? {} : { words: { note: said } };
    const until = channel === 'stall' ? untilOf(stall.until, state.site.zone, night.now) : null;
    const done = await act({ kind: 'sent-out', ...whenWho, ...words, payload: { channel, customer, unattended, until, lines } });
    if (done) setSent({ found: done.outcome, to: party?.name ?? null, id: done.id });
  };
  const begin = (of: string | null): void => {
    // What was changed for one customer says nothing of another.
    if (customer !== null) setChanged(new Map());
    setAgain(false);
    setLeft(null);
    choose(of);
  };
  const next = (): void => {
    setChanged(new Map());
    begin(onlyOf(channel, state.snapshot));
    setNote('');
    setSent(undefined);
  };
  const take = (product: string, t: Taken): void => setChanged(new Map(changed).set(product, t));
  const asOrdered = (product: string): void => setChanged(new Map([...changed].filter(([p]) => p !== product)));
  return {
    ...{ night, products, customer, setCustomer: begin, orders, order, sendAgain: () => setAgain(true), asked, take, asOrdered },
    ...{
      party,
      unattended,
      setLeft,
      how,
      setHow,
      whenWho,
      setWhenWho,
      note,
      setNote,
      stall,
      setStall,
      lines,
      save,
      next,
      sent,
      busy,
      trouble,
    },
  };
}
export type Sending = ReturnType<typeof useSending>;

const lineOf = (p: ProductOnHand, t: Taken, how: How): PayloadFor<'sent-out'>['lines'][number] => ({
  lots: t.lot === null ? anyOf(p) : [t.lot],
  quantity: { figure: t.pieces, unit: 'piece' },
  how,
});
