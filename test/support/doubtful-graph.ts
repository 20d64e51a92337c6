import { earliestOf, latestOf } from '@bakehouse/kernel';
import type { PutOn, TraceFlow, TraceGraph, TraceLot } from '@bakehouse/graph';

export const before = '2026-11-23T04:00:00.000Z';
export const weighed = '2026-11-23T05:00:00.000Z';
export const after = '2026-11-23T06:00:00.000Z';

export function lotOf(id: string, more: Partial<TraceLot> = {}): TraceLot {
  const none = {
    code: null,
    mg: null,
    pieces: null,
    pieceMg: null,
    putOn: [],
    outMg: null,
    outAt: null,
    lostMg: null,
    evaporatedMg: null,
    awayMg: 0,
    leftMg: null,
    leftAt: null,
  };
  return { id, name: id, type: 'made', book: 'site', material: id, at: before, ...none, ...more };
}
export function flowOf(id: string, source: string, target: string, mg: number | null, more: Partial<TraceFlow> = {}): TraceFlow {
  return { id, source, target, mg, pieces: null, how: 'weighed', type: 'ingredient', certain: true, anyOf: null, at: before, ...more };
}

const sources = ['S', 'flour', 'oil', 'egg'] as const;

/**
 * A small bakehouse with every doubt that records can have: lines that nobody weighed, one of several lots, what may not have happened, pieces with and
 * without a weight, losses of which nobody knows what they took, more out than in, overdrawn lots, lots that were sent out or counted, baked pieces as
 * rework by the piece and by weight. Lots `m0`, `m1`… are made in this order, and each may become a batch, `b0`, `b1`…
 */
export function doubtfulGraph(random: () => number): TraceGraph {
  const chance = chances(random);
  const { some } = chance;
  const lots = new Map<string, TraceLot>();
  for (const id of sources) {
    const mg = random() < 0.5 ? some(500, 4000) : null;
    lots.set(id, lotOf(id, { mg, pieceMg: random() < 0.5 ? some(20, 90) : null, ...wentOf(mg, chance) }));
  }
  const flows: TraceFlow[] = [];
  const made = some(2, 4);
  for (let n = 0; n < made; n += 1) {
    const target = `m${n}`;
    const own = intoMake(target, [...lots.keys()], chance);
    flows.push(...own);
    const known = own.every((f) => f.mg !== null && f.certain) ? own.reduce((sum, f) => sum + (f.mg ?? 0), 0) : null;
    const out = random() < 0.4 ? { outMg: some(50, 2500), outAt: weighed, evaporatedMg: random() < 0.5 ? some(0, 400) : null } : {};
    lots.set(target, lotOf(target, { mg: known, ...out, pieceMg: random() < 0.3 ? some(20, 90) : null, ...wentOf(known, chance) }));
    if (random() < 0.4) flows.push(...batchOf(n, lots, chance));
  }
  for (const lot of [...lots.values()].filter((l) => l.type === 'run' || l.type === 'batch')) {
    lots.set(lot.id, { ...lot, putOn: putOnPieces(lot, flows, lots) });
  }
  return { flows, lots };
}

interface Chances {
  readonly random: () => number;
  readonly pick: <T>(list: readonly T[]) => T;
  readonly some: (least: number, most: number) => number;
}
const chances = (random: () => number): Chances => ({
  random,
  pick: (list) => list[Math.floor(random() * list.length)] ?? fail(),
  some: (least, most) => least + Math.floor(random() * (most - least + 1)),
});

/** Sent out, or counted before or after everything else happened to it. */
function wentOf(mg: number | null, { random, some }: Chances): Partial<TraceLot> {
  if (mg === null || random() < 0.6) return {};
  const left = random() < 0.5 ? { leftMg: some(0, mg), leftAt: random() < 0.5 ? counted.before : counted.after } : {};
  return { awayMg: random() < 0.5 ? some(0, Math.floor(mg / 2)) : 0, ...left };
}
const counted = { before: '2026-11-23T03:00:00.000Z', after: '2026-11-23T07:00:00.000Z' } as const;

function intoMake(target: string, from: readonly string[], { random, pick, some }: Chances): TraceFlow[] {
  return Array.from({ length: some(1, 4) }, (_, i): TraceFlow[] => {
    const at = random() < 0.2 ? after : before;
    // Typed by somebody who remembers.
    const of = { at, ...(random() < 0.2 ? { earliest: counted.before, latest: counted.after } : {}) };
    const mg = random() < 0.25 ? null : some(1, 900);
    const id = `${target}.${i}`;
    const kind = random();
    if (kind < 0.55) return [flowOf(id, pick(from), target, mg, of)];
    if (kind < 0.7) return [flowOf(id, pick(from), target, null, { ...of, pieces: some(1, 9) })];
    if (kind < 0.8) return [flowOf(id, pick(from), target, mg, { ...of, certain: false })];
    const members = [...new Set([pick(from), pick(from), pick(from)])];
    const amount = random() < 0.2 ? { mg: null, pieces: some(1, 9) } : { mg };
    return members.map((m) => flowOf(`${id} ${m}`, m, target, null, { ...of, ...amount, certain: false, anyOf: id }));
  }).flat();
}

/**
 * Pieces of a make, baked, some of them by way of a run that something was put on; now and then somebody weighed them afterwards, and something was put on
 * the batch. Adds the run and the batch, and gives what went into them.
 */
function batchOf(n: number, lots: Map<string, TraceLot>, chance: Chances): TraceFlow[] {
  const { random, some } = chance;
  const [make, run, batch] = [`m${n}`, `r${n}`, `b${n}`];
  const all = some(4, 20);
  const there = lots.get(make)?.mg ?? lots.get(make)?.outMg ?? null;
  const pieceMg = there === null || random() < 0.1 ? some(20, 90) : Math.max(1, Math.floor((there * random()) / all));
  const pieces = random() < 0.5 ? all : some(1, all);
  const from = [...lots.keys()].filter((id) => id !== make);
  const putOn = (f: TraceFlow): TraceFlow => ({ ...f, putOn: true });
  const onRun = random() < 0.6 ? intoMake(run, from, chance).map(putOn) : [];
  const onBatch = random() < 0.3 ? intoMake(batch, from, chance).map(putOn) : [];
  const mg = pieces * pieceMg;
  const out = random() < 0.2 ? { outMg: Math.max(1, Math.floor(mg * (0.6 + 0.4 * random()))), outAt: weighed } : {};
  const countedAt = 'outAt' in out || random() < 0.3 ? before : after;
  lots.set(run, lotOf(run, { type: 'run', mg: all * pieceMg, pieces: all, pieceMg }));
  lots.set(batch, lotOf(batch, { type: 'batch', mg, pieces, pieceMg, at: countedAt, ...out }));
  return [
    flowOf(`${run}.divided`, make, run, all * pieceMg, { pieces: all, type: 'divided' }),
    ...onRun,
    flowOf(`${batch}.batched`, run, batch, mg, { pieces, type: 'batched', at: countedAt }),
    ...onBatch,
  ];
}

/** What was put on the pieces of a lot, and on all those of the run that they were counted out of: then their part of it. */
function putOnPieces({ id, pieces }: TraceLot, flows: readonly TraceFlow[], lots: ReadonlyMap<string, TraceLot>): PutOn[] {
  const own = putOnLot(id, flows);
  const of = flows.find((f) => f.target === id && f.type === 'batched');
  const all = lots.get(of?.source ?? '')?.pieces ?? 0;
  if (!of || !pieces || !all) return own;
  const ofRun = putOnLot(of.source, flows).map((on): PutOn => {
    if (of.at <= latestOf(on)) return { ...on, minMg: 0, gone: 0 };
    const there = Math.max(pieces, on.gone === null ? 0 : all - on.gone);
    return {
      ...on,
      minMg: Math.floor((on.minMg * pieces) / all),
      maxMg: on.maxMg === null ? null : Math.min(on.maxMg, Math.ceil((on.maxMg * pieces) / there)),
      gone: 0,
    };
  });
  return [...own, ...ofRun];
}

function putOnLot(id: string, all: readonly TraceFlow[]): PutOn[] {
  const flows = all.filter((f) => f.target === id && f.putOn === true);
  const once = flows.filter((f, i) => f.anyOf === null || flows.findIndex((g) => g.anyOf === f.anyOf) === i);
  return once.map(({ at, earliest = null, latest = null, mg, certain, anyOf }): PutOn => {
    const sure = certain || flows.filter((g) => g.anyOf !== null && g.anyOf === anyOf).length > 1;
    const batches = all.filter((g) => g.source === id && g.type === 'batched').map((g) => g.target);
    const left = all
      .filter((g) => (g.source === id || batches.includes(g.source)) && g.type !== 'batched' && earliestOf(g) <= latestOf({ at, latest }))
      .map((g) => g.pieces);
    const gone = left.reduce<number | null>((sum, n) => (sum === null || n === null ? null : sum + n), 0);
    return { at, earliest, latest, minMg: sure ? (mg ?? 0) : 0, maxMg: mg, gone };
  });
}

function fail(): never {
  throw new Error('nothing to pick from');
}
