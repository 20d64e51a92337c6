import type { InspectedDecision, InspectedWaste } from '@bakehouse/contracts';
import { grouped, inOrder } from '@bakehouse/kernel';
import { findingText, phrase } from '@bakehouse/records';
import type { PeriodRecords } from './period-records.js';
import type { Period, RecordedRow } from './rows.js';

type Said = Pick<InspectedDecision, 'food' | 'type' | 'decision' | 'because'> & Partial<Pick<InspectedDecision, 'pieces' | 'mg'>>;
type Event = { readonly id: string; readonly at: string; readonly entry: string };

const during =
  ({ begins, ends }: Period) =>
  ({ at }: Event): boolean =>
    at >= begins && at < ends;

/** What was decided about food in the period, whichever record it was decided in, in order of time. What came in and was accepted without more is with the deliveries. */
export function decisionsOf(records: PeriodRecords, period: Period): InspectedDecision[] {
  const { rows } = records;
  const inTime = during(period);
  const told = (row: Event, said: Said): InspectedDecision => ({
    id: row.id,
    ...records.provenance(row),
    pieces: null,
    mg: null,
    ...said,
    why: whyOf(records, row),
    signedBy: records.signedBy(row.entry),
  });
  const deviations = new Map(rows.deviation.map((d) => [d.id, d]));
  const cases = new Map(rows.recallCase.map((c) => [c.id, c]));
  const ofReceipt = new Set(rows.receiptDecision.map((d) => d.entry));
  const endsRefusal = new Set(rows.refusalEnded.map((e) => e.entry));
  return inOrder([
    ...rows.disposition.filter(inTime).map((d) => {
      const { subjectType, summary } = deviations.get(d.deviation) ?? { subjectType: 'lot' as const, summary: null };
      const food = records.named(d.subject) ?? records.subjectName(subjectType, d.subject);
      return told(d, { food, type: 'disposition', decision: d.disposition, pieces: d.pieces, mg: d.mg, because: summary });
    }),
    ...rows.recallDecision.map(({ lot, decision, pieces, mg, recall, ...d }) => {
      const because = cases.get(recall)?.hazardName ?? null;
      return told(d, { food: records.named(lot), type: 'recallLotDecision', decision, pieces, mg, because });
    }),
    ...rows.release
      .filter((r) => r.way === 'by-exception' && inTime(r))
      .map((r) => told(r, { food: records.named(r.batch), type: 'release', decision: r.way, because: findingsOf(r) })),
    ...rows.receiptDecision
      .filter((d) => inTime(d) && (d.decision !== 'accepted' || endsRefusal.has(d.entry)))
      .map((d) => {
        const because = endsRefusal.has(d.entry) ? phrase('finding.refused') : d.condition;
        return told(d, { food: records.named(d.lot), type: 'decision', decision: d.decision, because });
      }),
    ...rows.refusalEnded
      .filter((e) => !ofReceipt.has(e.entry))
      .map((e) => {
        const atPlace = records.fact(e.entry)?.kind === 'food-at-place-accepted';
        const because = phrase(atPlace ? 'finding.place-held' : 'finding.withdrawn');
        return told(e, { food: records.named(e.lot), type: 'disposition', decision: 'accepted-for-use', because });
      }),
  ]);
}

function whyOf(records: PeriodRecords, { entry }: Event): string | null {
  const { why, note } = records.fact(entry)?.words ?? {};
  return why ?? note ?? null;
}

const findingsOf = ({ findings }: RecordedRow<'release'>): string | null =>
  findings.length === 0 ? null : findings.map(findingText).join('; ');

/** What left as waste or feed, or went back to its supplier, without a decision that says so. What went as one of several lots is one line. */
export function wasteOf(records: PeriodRecords): InspectedWaste[] {
  const { rows } = records;
  const nameOf = (lot: string): string => records.named(lot) ?? 'a lot without a name';
  const told = (row: Event): Omit<InspectedWaste, 'food' | 'channel' | 'pieces' | 'mg'> => ({
    id: row.id,
    ...records.provenance(row),
    record: records.fact(row.entry)?.kind ?? '',
  });
  // what a decision took out of the house stands with the decisions
  const undecided = rows.departure.filter((d) => d.decided === null);
  const left = [...grouped(undecided, (d) => d.anyOf ?? d.id).values()].flatMap(([first, ...more]) =>
    first === undefined
      ? []
      : [
          {
            ...told(first),
            food: [first, ...more].map((d) => nameOf(d.lot)),
            channel: first.channel,
            pieces: first.pieces,
            mg: first.mg,
          },
        ],
  );
  const back = rows.returned.flatMap((r): InspectedWaste[] =>
    r.disposition === 'waste' || r.disposition === 'feed'
      ? [{ ...told(r), food: [nameOf(r.lot)], channel: r.disposition, pieces: r.pieces, mg: r.mg }]
      : [],
  );
  return inOrder([...left, ...back]);
}
