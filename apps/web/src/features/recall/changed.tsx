import { recallView, type RecallView } from '@bakehouse/contracts';
import { useState } from 'react';
import { whole } from '../../shared/format';
import { office } from '../../shared/office-paths';
import { Button, LinkButton, Notice, StateWord } from '../../ui';
import { useWho } from '../../shared/who';

interface Props {
  readonly recall: RecallView;
  readonly onHeld: () => Promise<void>;
}

/** What the trace reaches now and did not when the scope was frozen, and the other way round. */
export function Changed({ recall, onHeld }: Props) {
  const { added, gone, notHeld } = recall.changedSince;
  if (added.length + gone.length === 0)
    return (
      <>
        <p>
          <StateWord shape="ring" tone="calm">
            The trace reaches the same lots as when the scope was frozen.
          </StateWord>
        </p>
        <LeftSince recall={recall} />
      </>
    );
  const free = new Set(notHeld);
  const elsewhere = added.filter((lot) => !free.has(lot));
  return (
    <Notice tone="bad" title={`Changed since the scope was frozen: ${whole(added.length)} more, ${whole(gone.length)} no longer reached`}>
      {notHeld.length === 0 ? null : <NotHeld recall={recall} onHeld={onHeld} />}
      {elsewhere.length === 0 ? null : (
        <>
          <p>Reached now, and either on hold already or no longer in the house by the records:</p>
          <Lots recall={recall} lots={elsewhere} />
        </>
      )}
      {gone.length === 0 ? null : (
        <p>
          A clean-out, a code given later or a correction took {whole(gone.length)} out of the trace. They stay in the frozen scope, and on
          hold.
        </p>
      )}
      <LeftSince recall={recall} />
    </Notice>
  );
}

/** Food of the case that left the house once the case was opened: who has it is on the list of contacts. */
function LeftSince({ recall }: Pick<Props, 'recall'>) {
  const left = recall.trace.ends.filter((e) => e.at > recall.openedAt && !e.stays && e.decided === null);
  if (left.length === 0) return null;
  const pieces = left.reduce((sum, e) => sum + (e.pieces ?? 0), 0);
  const to = [...new Set(left.flatMap((e) => e.customerName ?? []))];
  const what = [
    `Left since the case was opened: ${whole(left.length)} ${left.length === 1 ? 'time' : 'times'}`,
    ...(pieces === 0 ? [] : [`${whole(pieces)} pieces`]),
    ...(to.length === 0 ? [] : [`to ${to.join(', ')}`]),
  ].join(', ');
  return (
    <p>
      <StateWord shape="diamond" tone="bad">
        {`${what}. The list of contacts has them.`}
      </StateWord>
    </p>
  );
}

function NotHeld({ recall, onHeld }: Props) {
  const { askPatiently } = useWho();
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<string>();
  const { notHeld } = recall.changedSince;
  const takeIn = async (): Promise<void> => {
    setBusy(true);
    setTrouble(undefined);
    const reply = await askPatiently('post', '/recalls/{recall}/extend', recallView, { params: { path: { recall: recall.id } } });
    setBusy(false);
    if (reply.as === 'ok') await onHeld();
    else setTrouble(reply.as === 'problem' ? `${reply.problem.title}. ${reply.problem.detail}` : unreachable);
  };
  const can = !recall.practice && recall.closedAt === null;
  return (
    <>
      <p>{can ? 'Perhaps in the house, and NOT on hold by this case:' : 'Perhaps in the house, and not on hold by this case:'}</p>
      <Lots recall={recall} lots={notHeld} />
      {can ? (
        <Button needs="decide.recall" look="grave" disabled={busy} onClick={() => void takeIn()}>
          {busy ? 'One moment…' : `Take ${notHeld.length === 1 ? 'it' : `all ${whole(notHeld.length)}`} into the case and hold`}
        </Button>
      ) : null}
      {trouble === undefined ? null : <p role="alert">{trouble}</p>}
    </>
  );
}

const unreachable = 'The bakehouse’s computer cannot be reached. Set them aside by hand, and try again.';

function Lots({ recall: { trace }, lots }: { readonly recall: RecallView; readonly lots: readonly string[] }) {
  const known = new Map(trace.lots.map((l) => [l.id, l]));
  return (
    <ul className="tags">
      {lots.map((lot) => {
        const l = known.get(lot);
        return (
          <li key={lot}>
            <LinkButton to={office.lot(lot)}>{l ? `${l.name}${l.code === null ? '' : ` ${l.code}`}, ${l.site}` : 'a lot'}</LinkButton>
          </li>
        );
      })}
    </ul>
  );
}
