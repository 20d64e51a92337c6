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

/** Somebody who is on no list took it: in whose words they are known again. */
export interface NobodySaid {
  readonly who: string;
}
interface Sent {
  readonly found: OutcomeOf<'sent-out'>;
  readonly to: string | null;
  readonly id: string;
  /** Of each line, the lots of which it was one. */
  readonly lots: readonly (readonly string[])[];
}

type Night = ReturnType<typeof useOnHand>['night'];

/** Who gets it. Whom nobody on the list is, somebody has to say in words; where a drop is left is agreed with those who are on it. */
function useReceiver({ channel, parties }: Pick<ChannelChoice, 'channel' | 'parties'>, { state, now }: Night) {
  const [customer, choose] = useState<string | null>(() => onlyOf(channel, state.snapshot, now));
  const [toNobody, setToNobody] = useState<NobodySaid | null>(null);
  const [left, setLeft] = useState<boolean | null>(null);
  const party = state.snapshot.party.findLast((p) => p.party === customer);
  const leftAlone = left ?? party?.unattended ?? (customer !== null || parties.length === 0 ? false : null);
  const who = toNobody?.who.trim() ?? '';
  const receiver = parties.length === 0 || customer !== null || (toNobody !== null && leftAlone !== null && (leftAlone || who !== ''));
  const taken = toNobody === null ? '' : `nobody on the list: ${who === '' ? 'left with nobody there' : who}`;
  const turnTo = (of: string | null): void => {
    setLeft(null);
    setToNobody(null);
    choose(of);
  };
  return { customer, party, toNobody, setToNobody, leftAlone, setLeft, receiver, taken, turnTo };
}

/** What one customer, or one type of leaving, takes of each product: what they had last, with what is different this time. */
export function useSending({ channel, parties }: Pick<ChannelChoice, 'channel' | 'parties'>) {
  const { night, products, here } = useOnHand();
  const { customer, party, toNobody, setToNobody, leftAlone, setLeft, receiver, taken, turnTo } = useReceiver({ channel, parties }, night);
  const [stall, setStall] = useState<StallSaid>({ place: '', until: '' });
  const [changed, setChanged] = useState<ReadonlyMap<string, Taken>>(new Map());
  const [again, setAgain] = useState(false);
  const [how, setHow] = useState<How>('counted');
  const [whenWho, setWhenWho] = useState<WhenAndWho>({});
  const [note, setNote] = useState('');
  const [sent, setSent] = useState<Sent>();
  const { act, busy, trouble } = useAct();
  const { lookup, state } = night;
  const orders = useMemo(() => (customer === null ? null : ordersOf(lookup, customer, state.site)), [lookup, customer, state.site]);
  // Who had something today has had the order: filled in once more, it would go twice.
  const order = orders === null || (orders.today !== null && !again) ? null : orders.last;
  const asked = roundLines(order, changed, products);
  const lines = asked.flatMap((l) => (l.onHand === undefined || goes(l) === 0 ? [] : [lineOf(l.onHand, l, how)]));
  const save = async (): Promise<void> => {
    const words = wordsOf([stall.place.trim() === '' ? '' : `stall: ${stall.place.trim()}`, taken, note.trim()]);
    const until = channel === 'stall' ? untilOf(stall.until, state.site.zone, night.now) : null;
    const done = await act({
      kind: 'sent-out',
      ...whenWho,
      ...words,
      payload: { channel, customer, unattended: leftAlone ?? false, until, lines },
    });
    if (done) setSent({ found: done.outcome, to: (party?.name ?? taken) || null, id: done.id, lots: lines.map((l) => l.lots) });
  };
  const begin = (of: string | null): void => {
    // What was changed for one customer says nothing of another.
    if (customer !== null) setChanged(new Map());
    setAgain(false);
    turnTo(of);
  };
  const next = (): void => {
    setChanged(new Map());
    begin(onlyOf(channel, state.snapshot, night.now));
    setNote('');
    setSent(undefined);
  };
  const take = (product: string, t: Taken): void => setChanged(new Map(changed).set(product, t));
  const asOrdered = (product: string): void => setChanged(new Map([...changed].filter(([p]) => p !== product)));
  return {
    ...{ night, products, here, customer, setCustomer: begin, orders, order, sendAgain: () => setAgain(true), asked, take, asOrdered },
    ...{
      party,
      leftAlone,
      receiver,
      toNobody,
      setToNobody,
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

function wordsOf(said: readonly string[]): { readonly words?: { readonly note: string } } {
  const note = said.filter((w) => w !== '').join('; ');
  return note === '' ? {} : { words: { note } };
}
export type Sending = ReturnType<typeof useSending>;

const lineOf = (p: ProductOnHand, t: Taken, how: How): PayloadFor<'sent-out'>['lines'][number] => ({
  lots: t.lot === null ? anyOf(p) : [t.lot],
  quantity: { figure: t.pieces, unit: 'piece' },
  how,
});
