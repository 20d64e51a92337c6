import type { Row, Snapshot } from '@bakehouse/records';

/** What somebody looks for in a night's rows, knowing nothing of ids: whatever is found, by id. */
export type Search = (rows: Snapshot) => readonly string[];

const between = (of: { at: string }, from: { at: string }, hours: number): boolean =>
  Math.abs(Date.parse(of.at) - Date.parse(from.at)) < hours * 3_600_000;
const outside = (rows: Snapshot, key: string): Row<'reading'>[] =>
  rows.reading.filter((r) => r.pointKey === key && r.verdict === 'outside');
const called = (rows: Snapshot, lot: string): string => rows.lot.find((l) => l.id === lot)?.name ?? '';
const saying = (rows: Snapshot, words: RegExp): string[] =>
  rows.deviation.filter((d) => d.type === 'deviation-reported' && words.test(d.summary ?? '')).map((d) => d.id);

/** How each planted problem shows in the rows of its night. */
export const searches: Readonly<Record<string, Search>> = {
  'warm-cream': (rows) =>
    rows.receiptDecision
      .filter((d) => d.decision === 'refused')
      .map((d) => d.lot)
      .filter((lot) => outside(rows, 'chilled-in').some((r) => r.subject === lot)),
  'unknown-then-named': (rows) =>
    rows.lotIdentified.filter((i) => rows.flow.some((f) => f.source === i.lot && f.at < i.at)).map((i) => i.lot),
  'no-lot-at-all': (rows) =>
    rows.flow
      .filter(
        (f) =>
          rows.lot.some((l) => l.id === f.source && l.type === 'placeholder' && l.delivery === null) &&
          called(rows, f.source) === 'Seed mix',
      )
      .map((f) => f.target),
  substitution: (rows) => {
    const soya = new Set(rows.specification.filter((s) => s.contains.includes('soybeans')).map((s) => s.id));
    return rows.flow
      .filter((f) => f.type === 'aid' && rows.lot.some((l) => l.id === f.source && l.specification !== null && soya.has(l.specification)))
      .map((f) => rows.run.find((r) => r.id === f.target)?.make ?? '');
  },
  'kg-for-lb': (rows) => rows.lot.filter((l) => l.quantityAsWritten === '55 lb' && l.mg === 24_947_580).map((l) => l.id),
  'double-entry': (rows) =>
    rows.make
      .filter((m) => m.formulaName === 'White dough')
      .flatMap((m) =>
        rows.flow.filter((f) => f.target === m.id && called(rows, f.source) === 'Sea salt, fine').length === 1 ? [m.id] : [],
      ),
  'wrong-lot': (rows) =>
    rows.make
      .filter(
        (m) => m.formulaName === 'Sourdough' && rows.flow.every((f) => f.target !== m.id || called(rows, f.source) !== 'Stoneground rye'),
      )
      .map((m) => m.id),
  'guessed-split': (rows) =>
    rows.flow
      .filter((f) => f.how === 'estimated' && f.mg === 16_400_000 && called(rows, f.source) === 'Strong white flour')
      .map((f) => f.target),
  'negative-balance': (rows) =>
    rows.counted
      .filter(
        (c) =>
          c.mg === 0 &&
          rows.lot.some(
            (l) => l.id === c.lot && (l.mg ?? 0) < rows.flow.filter((f) => f.source === l.id).reduce((sum, f) => sum + (f.mg ?? 0), 0),
          ),
      )
      .map((c) => c.id),
  'friction-drift': (rows) => saying(rows, /bearing runs hot/),
  'retarder-excursion': (rows) => outside(rows, 'retarder-air').map((r) => r.id),
  'low-core': (rows) =>
    outside(rows, 'bloomer-core')
      .filter(
        (r) =>
          rows.loadStep.some((s) => s.load === r.subject && s.step === 'back-in' && s.at > r.at) &&
          rows.reading.some((again) => again.subject === r.subject && again.verdict === 'within' && again.at > r.at),
      )
      .map((r) => r.id),
  'core-940': (rows) => rows.reading.filter((r) => r.verdict === 'not-believable' && r.figure === '940').map((r) => r.id),
  'sold-without-core': (rows) =>
    rows.release
      .filter((r) => r.way === 'by-exception' && rows.departure.some((d) => d.lot === r.batch && d.at < r.at))
      .map((r) => r.batch),
  'slow-tray': (rows) =>
    outside(rows, 'custard-cool')
      .filter(
        (r) =>
          rows.disposition.some((d) => d.subject === r.subject && d.disposition === 'destroyed') &&
          rows.departure.some((d) => d.lot === r.subject && d.mg === 4_396_000),
      )
      .map((r) => r.id),
  'warm-fridge': (rows) =>
    outside(rows, 'fridge-air')
      .filter((r) => rows.readingNotTaken.some((n) => n.subject === r.subject && n.answer === 'not-known' && between(n, r, 1)))
      .map((r) => r.id),
  'tray-too-long': (rows) =>
    outside(rows, 'display-time')
      .filter((r) => r.figure === '125')
      .map((r) => r.id),
  'wash-topped-up': (rows) => outside(rows, 'wash-age').map((r) => r.id),
  'returns-in-crumb': (rows) =>
    rows.returned
      .filter((c) => c.customer !== null && rows.flow.some((f) => f.source === c.lot && f.type === 'vessel' && f.at > c.at))
      .map((c) => c.id),
  'not-cleaned-after-almonds': (rows) =>
    rows.make
      .filter(
        (m) =>
          m.formulaName === 'Treacle tarts' &&
          rows.make.some(
            (a) =>
              a.formulaName === 'Frangipane' &&
              a.station === m.station &&
              a.at < m.at &&
              between(a, m, 12) &&
              !rows.cleanDown.some((c) => c.place === m.station && c.at > a.at && c.at <= m.at),
          ),
      )
      .map((m) => m.id),
  'old-labels': (rows) => saying(rows, /^48 packs/),
  'probe-off': (rows) =>
    rows.instrumentCheck.filter((c) => !c.passed && rows.instrumentOut.some((o) => o.instrument === c.instrument)).map((c) => c.id),
  'two-complaints': (rows) => saying(rows, /blue thread/),
  'catch-up': (rows) => [...rows.reading, ...rows.cleanDown].filter((r) => /T1[12]:(45|00)/.test(r.at)).map((r) => r.id),
  'own-review': (rows) => rows.deviationClosed.filter((c) => c.selfReview).map((c) => c.deviation),
  'round-short': (rows) =>
    rows.counted
      .filter(
        (c) =>
          c.pieces === 0 &&
          rows.batch.some(
            (b) => b.id === c.lot && b.pieces > rows.departure.filter((d) => d.lot === b.id).reduce((sum, d) => sum + (d.pieces ?? 0), 0),
          ),
      )
      .map((c) => c.id),
  'plan-changed-off-line': (rows) =>
    rows.make
      .filter((m) =>
        rows.planVersion.some((p) => p.id === m.plan && rows.planVersion.some((later) => later.number > p.number && later.since < m.at)),
      )
      .map((m) => m.id),
  'call-left-open': (rows) => saying(rows, /Salmonella/).filter((id) => !rows.deviationClosed.some((c) => c.deviation === id)),
  leaver: (rows) => rows.personLeft.map((l) => l.id),
};
