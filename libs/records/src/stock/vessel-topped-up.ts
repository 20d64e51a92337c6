import {
  amountOf,
  canonicalInteger,
  decided,
  derivedId,
  how,
  id,
  inOrder,
  instant,
  localDay,
  moreThanNothing,
  observed,
  refuse,
  timeDoubt,
  upcaster,
} from '@bakehouse/kernel';
import * as z from 'zod';
import { lineNow } from '../standing/accepted-part.js';
import { lotNeeds, troubleNeeds, troubleUsing, troubleWith, usingNeeds } from '../standing/lot-trouble.js';
import { contentFlow } from './content-flow.js';
import { contentId } from '../standing/later-content.js';
import { carriedId, goneId, overId } from './content-rows.js';
import { openAt } from './open-at.js';
import { nothingOnIt, placeholderLot } from './placeholder.js';
import { contentDeviations } from './used-in.js';
import { quantityNeeds, quantityOf } from '../control/quantity-of.js';
import { specificationAt } from '../control/specification-at.js';
import { defineKind } from '../base/kind.js';
import type { Change, Need, Row, State } from '../base/state.js';
import { lotTrouble } from '../rows/stock.js';

const added = z.strictObject({ material: id, lot: id.nullable(), quantity: observed.nullable(), how });
const addedOutcome = z.strictObject({
  lot: id,
  placeholder: z.boolean(),
  name: z.string(),
  specification: id.nullable(),
  mg: canonicalInteger.nullable(),
  pieces: z.int().nullable(),
  trouble: lotTrouble.nullable(),
});
/** The content that was in it, with the stations where it was open: they go on with the new content. */
const old = z.strictObject({
  lot: id,
  mg: canonicalInteger.nullable(),
  trouble: lotTrouble.nullable(),
  stations: z.array(z.strictObject({ station: id, material: id })),
});

const content = { name: z.string(), specification: id, old: old.nullable(), added: z.array(addedOutcome) };

/**
 * Something was put into a bin, tub, silo or pot on top of what was there. The content from now on is a new lot that holds the old one:
 * nothing but a recorded clean-out ever breaks that chain, however little was left.
 */
export const vesselToppedUp = defineKind({
  name: 'vessel-topped-up',
  version: 1,
  book: 'site',
  type: 'fact',
  offline: true,
  signed: null,
  permission: 'record',
  phrase: 'A vessel was filled or topped up',
  official: 'Vessel filled or topped up',
  words: ['note'],
  payload: z.strictObject({
    vessel: id,
    material: id,
    /** What was left in it before; null where nobody looked. */
    kept: observed.nullable(),
    keptHow: how,
    added: z.array(added).min(1).max(20),
  }),
  outcome: z.strictObject({
    ...content,
    /** The content that was recorded before this one and came after it. */
    next: id.nullable(),
    /** When this content was over, by what was recorded before it: the next one came, or the vessel was cleaned out. */
    over: instant.nullable(),
  }),
  outcomeVersion: 3,
  upcastOutcome: {
    1: upcaster(z.strictObject(content), (same) => ({ ...same, next: null })),
    2: upcaster(z.strictObject({ ...content, next: id.nullable() }), (same) => ({ ...same, over: null })),
  },
  examples: [
    {
      vessel: '0190a6d0-7b3c-7000-8000-0000000000a3',
      material: '0190a6d0-7b3c-7000-8000-0000000000c1',
      kept: { figure: '420', unit: 'g' },
      keptHow: 'weighed',
      added: [
        {
          material: '0190a6d0-7b3c-7000-8000-0000000000c1',
          lot: '0190a6d0-7b3c-7000-8000-0000000000b1',
          quantity: { figure: '1090', unit: 'g' },
          how: 'weighed',
        },
      ],
    },
  ],
  needs: (p) => [
    { in: 'place', id: p.vessel },
    { in: 'specification', by: 'material', value: p.material },
    { in: 'inUse', by: 'station', value: p.vessel },
    { in: 'emptied', by: 'station', value: p.vessel },
    ...p.added.flatMap((a): Need[] => [
      { in: 'specification', by: 'material', value: a.material },
      ...(a.lot === null ? [] : lotNeeds(a.lot)),
    ]),
  ],
  then(p, state, { root, at }) {
    const before = [contentBefore(state, p.vessel, root, at)].flatMap((u) => u ?? []);
    return [
      ...usingNeeds(
        state,
        p.added.flatMap((a) => a.lot ?? []),
      ),
      ...troubleNeeds(
        state,
        before.map((u) => u.lot),
      ),
      ...p.added.flatMap((a) => quantityNeeds(state, a.quantity, a.lot === null ? [] : [a.lot])),
      ...before.flatMap((u): Need[] => {
        const opened: Need = { in: 'inUse', by: 'lot', value: u.lot };
        const stations = state.knows(opened) ? stationsOf(state, u.lot) : [];
        return [
          opened,
          { in: 'emptied', by: 'lot', value: u.lot },
          ...stations.map((station): Need => ({ in: 'inUse', by: 'station', value: station })),
        ];
      }),
    ];
  },
  decide({ payload: p, root, at }, state, { stamp, previous }) {
    if (!state.get('place', p.vessel)) return refuse('unknown-place', 'payload.vessel');
    const spec = specificationAt(state, p.material, at);
    if (!spec) return refuse('unknown-material', 'payload.material');
    const kept = amountOf(p.kept, spec, 'payload.kept');
    if (!kept.ok) return kept;
    const lines: z.infer<typeof addedOutcome>[] = [];
    for (const [i, a] of p.added.entries()) {
      const of = specificationAt(state, a.material, at);
      if (!of) return refuse('unknown-material', `payload.added.${i}.material`);
      const lot = a.lot === null ? undefined : state.get('lot', a.lot);
      if (a.lot !== null && !lot) return refuse('unknown-lot', `payload.added.${i}.lot`);
      const field = `payload.added.${i}.quantity`;
      const amount = moreThanNothing(
        lot ? quantityOf(state, a.quantity, { lots: [lot], at }, field) : amountOf(a.quantity, of, field),
        field,
      );
      if (!amount.ok) return amount;
      const placeholder = a.lot === null || (previous?.outcome.added.some((was) => was.placeholder && was.lot === a.lot) ?? false);
      lines.push({
        lot: a.lot ?? derivedId(root, `placeholder ${i}`),
        placeholder,
        name: of.name,
        specification: of.id,
        ...amount.value,
        trouble:
          a.lot === null
            ? null
            : troubleUsing(state, a.lot, {
                ...lineNow(root, [...lines.filter((l) => l.lot === a.lot), amount.value], p.added.length),
                at,
                zone: stamp.zone,
                station: null,
              }),
      });
    }
    return decided({
      name: spec.name,
      specification: spec.id,
      old: oldContent(state, p.vessel, root, at, kept.value.mg, stamp.zone),
      ...whatCameNext(state, p.vessel, root, at),
      added: lines,
    });
  },
  rows({ payload: p, root, at, until, precision }, o, { zone, book: site }): Change[] {
    const opened = (station: string, material: string, id: string): Change => ({
      in: 'inUse',
      id,
      row: { station, material, lot: root, name: o.name, specification: o.specification, site, at, beside: true },
    });
    const gone = (lot: string, station: string): Change => ({
      in: 'emptied',
      id: goneId(root, station),
      row: { station, lot, at, leftMg: null },
    });
    const when = { at, ...timeDoubt({ at, until, precision }), day: localDay(at, zone) };
    const flow = (source: string, key: string, { mg, pieces }: Pick<Row<'flow'>, 'mg' | 'pieces'>, known: z.infer<typeof how>): Change =>
      contentFlow(derivedId(root, key), { source, target: root, mg, pieces, how: known, ...when });
    return [
      { in: 'lot', id: root, row: { ...contentLot, material: p.material, specification: o.specification, name: o.name, at } },
      opened(p.vessel, p.material, contentId(root)),
      ...(o.old ? [flow(o.old.lot, 'old content', { mg: o.old.mg, pieces: null }, p.keptHow), gone(o.old.lot, p.vessel)] : []),
      ...(o.old?.stations ?? []).flatMap((s) => [
        opened(s.station, s.material, carriedId(root, s.station)),
        gone(o.old?.lot ?? root, s.station),
      ]),
      ...(o.next === null ? [] : [heldBy(o.next, root, o.over ?? at, zone)]),
      ...(o.over === null
        ? []
        : endedAt(root, { vessel: p.vessel, stations: (o.old?.stations ?? []).map((s) => s.station) }, o.next, o.over)),
      ...o.added.flatMap((a, i): Change[] => [
        flow(a.lot, `flow ${i}`, a, p.added[i]?.how ?? 'estimated'),
        ...(a.placeholder ? [placeholderLot(a.lot, { ...a, material: p.added[i]?.material ?? p.material }, at)] : []),
      ]),
      ...contentDeviations(
        [o.old, ...o.added].filter((one) => one !== null),
        { root, name: o.name, at },
      ),
    ];
  },
});

/** What was put in late went on into the content that came next, when that came; nobody knows how much of it. */
const heldBy = (next: string, root: string, at: string, zone: string): Change =>
  contentFlow(derivedId(root, 'next content'), {
    ...{ source: root, target: next, mg: null, pieces: null, how: 'estimated' },
    ...{ at, earliest: null, latest: null, day: localDay(at, zone) },
  });

/** What was cleaned out left nothing in the vessel, whichever was recorded first. */
const endedAt = (lot: string, { vessel, stations }: WhereOpen, next: string | null, at: string): Change[] =>
  [vessel, ...stations].map((station) => ({
    in: 'emptied',
    id: overId(lot, station, next),
    row: { station, lot, at, leftMg: next === null && station === vessel ? 0 : null },
  }));
interface WhereOpen {
  readonly vessel: string;
  readonly stations: readonly string[];
}

const contentLot = { ...nothingOnIt, type: 'vessel', codeState: 'own' } as const;

/** What was in the vessel at an instant. A correction finds its own rows there: they are not what was before it. */
function contentBefore(state: State, vessel: string, root: string, at: string): Row<'inUse'> | undefined {
  const opened = state.find('inUse', 'station', vessel).filter((u) => u.lot !== root);
  return inOrder(openAt(opened, emptiedByOthers(state.find('emptied', 'station', vessel), root), at)).at(-1);
}

const emptiedByOthers = (emptied: readonly Row<'emptied'>[], root: string): Row<'emptied'>[] =>
  emptied.filter((e) => ![goneId(root, e.station), overId(e.lot, e.station, root)].includes(e.id));

const stationsOf = (state: State, lot: string): string[] => [...new Set(state.find('inUse', 'lot', lot).map((u) => u.station))];

function oldContent(state: State, vessel: string, root: string, at: string, mg: number | null, zone: string): z.infer<typeof old> | null {
  const content = contentBefore(state, vessel, root, at);
  if (!content) return null;
  const emptied = emptiedByOthers(state.find('emptied', 'lot', content.lot), root);
  // With what else was opened there: it may have replaced this content since.
  const opened = stationsOf(state, content.lot).flatMap((station) => state.find('inUse', 'station', station));
  const others = opened.filter((u) => u.lot !== root && u.station !== vessel);
  const open = openAt(others, emptied, at).filter((u) => u.lot === content.lot);
  return {
    lot: content.lot,
    mg,
    trouble: troubleWith(state, content.lot, at, zone),
    stations: open.map((u) => ({ station: u.station, material: u.material })),
  };
}

/**
 * The content that came next where this top-up is recorded late: it holds this one too, unless the vessel was emptied and cleaned in between, which took
 * away what was in it then. Either way this one was over. What knew of this content when it was recorded has said so itself.
 */
function whatCameNext(state: State, vessel: string, root: string, at: string): { next: string | null; over: string | null } {
  const contents = state.find('inUse', 'station', vessel).filter((u) => u.id === contentId(u.lot));
  const emptied = state.find('emptied', 'station', vessel).filter((e) => e.at >= at && e.id !== overId(root, vessel, null));
  if (emptied.some((e) => e.lot === root && !contents.some((c) => e.id === overId(root, vessel, c.lot)))) return { next: null, over: null };
  const ofContents = new Set(contents.flatMap((c) => [goneId(c.lot, vessel), ...contents.map((n) => overId(c.lot, vessel, n.lot))]));
  const cleaned = inOrder(emptied.filter((e) => !ofContents.has(e.id) && e.lot !== root))[0]?.at ?? null;
  const next = inOrder(contents.filter((u) => u.at > at && u.lot !== root))[0];
  if (next && (cleaned === null || cleaned > next.at)) return { next: next.lot, over: next.at };
  return { next: null, over: cleaned };
}
