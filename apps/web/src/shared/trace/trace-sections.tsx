import type { RecallView, TraceView } from '@bakehouse/contracts';
import { whole } from '../format';
import { Caution, Empty, Section } from '../../ui';
import { Balances } from './balance';
import { Heat } from './heat';
import { LotsTable } from './lots-table';
import { noneText } from './partial';
import { NobodyCanName, WhereItWent } from './where-it-went';

interface Props {
  readonly trace: TraceView;
  /** The case that it is the trace of, if it is one's. */
  readonly recall?: RecallView;
  readonly zone: string;
}

/** What a trace found, apart from the contact list and what is in the house. */
export function TraceSections({ trace, recall, zone }: Props) {
  const suspects = new Set(trace.suspects);
  const others = trace.doesNotAddUp.filter((d) => !d.lots.every((lot) => suspects.has(lot)));
  return (
    <>
      <Section title="Went to people nobody can name">
        <NobodyCanName trace={trace} {...(recall === undefined ? {} : { recall })} zone={zone} />
      </Section>
      <Section title="Where it went">
        <WhereItWent trace={trace} zone={zone} />
      </Section>
      <Heat trace={trace} zone={zone} />
      <Section title="Does it add up?">
        <Balances of={trace.suspectBalances} zone={zone} />
        {others.length === 0 ? (
          <Empty>{noneText(trace, 'Everything else that was reached adds up, or nobody has counted it.')}</Empty>
        ) : (
          <>
            <p>These do not add up either:</p>
            <Balances of={others} zone={zone} />
          </>
        )}
      </Section>
      <Section title="What holds it">
        <p>{trace.rule}</p>
        <LotsTable trace={trace} zone={zone} shares />
      </Section>
      <Caution />
      <p className="faint">
        As the records stood at {trace.asOf.map((b) => `${b.name}: ${whole(b.size)}`).join(', ')} entries. Scope code{' '}
        {trace.scopeHash.slice(0, 12)}.
      </p>
    </>
  );
}
