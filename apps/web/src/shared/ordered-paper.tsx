import type { Ask, Reply } from '@bakehouse/api-client';
import { paperOrder, type PaperOrder } from '@bakehouse/contracts';
import { useEffect, useRef, useState } from 'react';
import * as z from 'zod';
import { file } from './file';
import { saveFile } from '../ui/save-file';
import { troubleOf, type Trouble } from './trouble-of';
import { Button, Notice } from '../ui';
import { useWho } from './who';
import { TroubleNotice } from './trouble-notice';

const askAgainMs = 1000;
const unreached = 'Try again when the network is back.';
const notKept: Trouble = { title: 'This paper is not kept any more', detail: 'Order it again: it is made from the same records.' };

interface Props {
  /** Places the order. */
  readonly order: (ask: Ask) => Promise<Reply<PaperOrder>>;
  readonly name: string;
  readonly text: string;
  readonly look?: 'go' | 'plain';
}

/** A paper that takes the service a while: ordered, waited for in its turn, and saved on this device. */
export function OrderedPaper({ order, name, text, look = 'plain' }: Props) {
  const { busy, placed, reached, trouble, begin, cancel } = useOrder(order, name);
  return (
    <>
      <Button look={look} disabled={busy} onClick={begin}>
        {busy ? 'One moment…' : text}
      </Button>
      {placed ? (
        <Notice tone="calm" title={text}>
          <p role="status">{reached ? progressOf(placed) : 'Not connected. It goes on when the network is back.'}</p>
          <div className="buttons">
            <Button onClick={cancel}>Cancel this paper</Button>
          </div>
        </Notice>
      ) : null}
      <TroubleNotice of={trouble} />
    </>
  );
}

function progressOf({ state, ahead }: PaperOrder): string {
  if (state === 'in-line') return ahead === 1 ? '1 paper is made before this one.' : `${ahead} papers are made before this one.`;
  return state === 'being-made' ? 'It is being made now.' : 'It is made, and comes here now.';
}

function useOrder(order: Props['order'], name: string) {
  const { askPatiently: ask } = useWho();
  const [busy, setBusy] = useState(false);
  const [placed, setPlaced] = useState<PaperOrder>();
  const [reached, setReached] = useState(true);
  const [trouble, setTrouble] = useState<Trouble>();
  /** Not answered yet, or answered and not fetched: nobody makes it where nobody waits for it. */
  const wanted = useRef<{ id?: string } | null>(null);
  const end = (why?: Trouble): void => {
    wanted.current = null;
    setPlaced(undefined);
    setBusy(false);
    setTrouble(why);
  };
  const takeBack = (id: string) => ask('delete', '/papers/{order}', z.null(), { params: { path: { order: id } } });
  const takenBack = useRef(takeBack);
  takenBack.current = takeBack;
  const cancel = (): void => {
    if (wanted.current?.id !== undefined) void takeBack(wanted.current.id);
    end();
  };
  useEffect(
    () => () => {
      if (wanted.current?.id !== undefined) void takenBack.current(wanted.current.id);
      wanted.current = null;
    },
    [],
  );

  const place = async (): Promise<void> => {
    const mine: { id?: string } = {};
    wanted.current = mine;
    setBusy(true);
    setReached(true);
    setTrouble(undefined);
    const reply = await order(ask);
    if (reply.as === 'ok' && wanted.current !== mine) return void takeBack(reply.value.id);
    if (reply.as !== 'ok') return end(troubleOf(reply, unreached));
    mine.id = reply.value.id;
    setPlaced(reply.value);
  };

  const goOn = async (at: PaperOrder, gone: () => boolean): Promise<void> => {
    const params = { path: { order: at.id } };
    const made = at.state === 'done' || at.state === 'failed'; // then the file says why it could not be made
    const reply = made
      ? await ask('get', '/papers/{order}/file', file, { params, parseAs: 'blob' })
      : await ask('get', '/papers/{order}', paperOrder, { params });
    if (gone()) return;
    setReached(reply.as !== 'unreachable');
    if (reply.as === 'unreachable') return setPlaced({ ...at }); // asked again after a while
    if (reply.as === 'problem') return end(reply.problem.problem === 'not-found' ? notKept : reply.problem);
    if (!(reply.value instanceof Blob)) return setPlaced(reply.value);
    saveFile(reply.value, name);
    end();
  };
  const latest = useRef(goOn);
  latest.current = goOn;
  useEffect(() => {
    if (!placed) return undefined;
    let gone = false;
    const soon = reached && (placed.state === 'done' || placed.state === 'failed');
    const handle = setTimeout(() => void latest.current(placed, () => gone), soon ? 0 : askAgainMs);
    return () => {
      gone = true;
      clearTimeout(handle);
    };
  }, [placed]);
  return { busy, placed, reached, trouble, begin: () => void place(), cancel };
}
