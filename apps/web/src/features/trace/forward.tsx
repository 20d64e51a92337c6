import type { TraceView } from '@bakehouse/contracts';
import { isOnHold } from '@bakehouse/views';
import { useMemo } from 'react';
import { isPartial, noneText } from '../../shared/trace/partial';
import { amountText } from '../../shared/trace/words';
import { Caution, Empty, Notice } from '../../ui';
import { folded } from './picture/fold';
import { forwardEnds } from './picture/forward-ends';
import { flowsOf, weightsIn } from './picture/lots-drawn';
import { TracePicture } from './picture/picture';
import { WentTable } from './picture/rows-table';
import { SavePicture } from './picture/save-picture';
import { sumOf } from './sums';

interface Props {
  readonly trace: TraceView;
  readonly title: string;
  readonly code: string;
  readonly zone: string;
}

/** Where it went, as a picture that ends in its table, and the sums under it. */
export function Forward({ trace, title, code, zone }: Props) {
  const { rows, flows } = useMemo(() => {
    const weights = weightsIn(trace);
    const ends = forwardEnds(trace, weights, zone);
    const held = new Set(trace.onHand.filter((o) => isOnHold(o)).map((o) => o.lot));
    return { rows: ends, flows: folded(flowsOf(trace, weights, ends, held)) };
  }, [trace, zone]);
  const sums = trace.suspectBalances.flatMap((line) => sumOf(line) ?? []);
  const says = flows.unit === 'mg' ? `Width is grams of ${code}, at most` : `Width is pieces of ${code}`;
  const [own] = trace.suspectBalances;
  const more = own?.balance.finding === 'more-than-there-was' && own.balance.unaccounted !== null ? -own.balance.unaccounted : null;
  return (
    <section className="flow-card" aria-label="Trace forward">
      {own === undefined || more === null ? null : (
        <Notice tone="bad" title={`More taken than there was: by ${amountText(more, own.balance.measure)}; count it`} />
      )}
      {rows.length === 0 ? (
        <Empty>{noneText(trace, 'Nothing of it has been used or sent out by the records.')}</Empty>
      ) : (
        <TracePicture
          flows={flows}
          rows={rows}
          zone={zone}
          title={`Where ${title} went`}
          widthSays={says}
          mirrored={false}
          table={(id, heights) => <WentTable id={id} rows={rows} heights={heights} />}
        />
      )}
      <div className="flow-sums">
        {sums.map((s) => (
          <p key={s}>{s}</p>
        ))}
        {isPartial(trace) || rows.length === 0 ? null : (
          <SavePicture
            flows={flows}
            rows={rows}
            title={`Where ${title} went`}
            says={says}
            sums={sums}
            caution={trace.caution}
            zone={zone}
            mirrored={false}
          />
        )}
      </div>
      <Caution />
    </section>
  );
}
