import { traceForward, whole, type TraceLot } from '@bakehouse/graph';
import { describe, expect, it } from '@jest/globals';
import { DirectedGraph } from 'graphology';
import { bfsFromNode } from 'graphology-traversal';
import { equalTo, greaterEq, lessEq, solve, type Constraint, type OptimizationDirection } from 'yalps';
import { flowOf, lotOf, weighed } from '../support/doubtful-graph.js';
import { mulberry } from '../support/seeded.js';

describe('reach', () => {
  it('is what a general graph library reaches, and as many links away, circles and all', () => {
    const random = mulberry(3);
    for (let n = 0; n < 300; n += 1) {
      const nodes = 2 + Math.floor(random() * 30);
      const any = (): string => `n${Math.floor(random() * nodes)}`;
      const flows = Array.from({ length: Math.floor(random() * 60) }, (_, i) =>
        flowOf(`f${i}`, any(), any(), random() < 0.2 ? null : 1, {
          certain: random() < 0.8,
          type: random() < 0.1 ? 'contact' : 'ingredient',
        }),
      );
      const other = new DirectedGraph();
      for (const f of flows) other.mergeEdge(f.source, f.target);
      other.mergeNode('n0');
      const depths: Record<string, number> = {};
      bfsFromNode(other, 'n0', (node, _attributes, depth) => {
        depths[node] = depth;
      });
      const reached = traceForward({ flows, lots: new Map() }, ['n0']);
      expect(Object.fromEntries([...reached.values()].map((r) => [r.lot, r.steps]))).toEqual(depths);
    }
  });
});

/** One line as a linear programme knows it: an amount between two figures (the second may be none), of a share between two. */
interface Row {
  readonly least: number;
  readonly most: number | null;
  readonly min: number;
  readonly max: number;
}

const nat = (random: () => number, below: number): number => Math.floor(random() * below);

/** Weighed, weighed and perhaps never put in, or not weighed: of a lot with so much in it, or of nobody knows how much. The first was weighed. */
function rowsOf(random: () => number): Row[] {
  return Array.from({ length: 1 + nat(random, 5) }, (_, i) => {
    const [least, mg] = [nat(random, 600), 1 + nat(random, 900)];
    const of = { min: least / 1000, max: (least + nat(random, 400)) / 1000 };
    const kind = i === 0 ? 0 : nat(random, 4);
    return kind === 0 ? { ...of, least: mg, most: mg } : { ...of, least: 0, most: kind === 1 ? mg : kind === 2 ? 1000 : null };
  });
}

/** What we say of a lot that these went into, each a lot of 1,000 of which some surely, and some as one of two, came from the suspect. */
function shareOf(rows: readonly Row[], out: Partial<TraceLot> = {}): { min: number; max: number } {
  const either = { certain: false, anyOf: 'either' };
  const flows = rows.flatMap(({ least, most, min, max }, i) => {
    const [surely, perhaps, lot] = [Math.round(min * 1000), Math.round((max - min) * 1000), `lot${i}`];
    const unweighed = least === 0 && (most === 1000 || most === null);
    return [
      flowOf(`${lot} S`, 'S', lot, surely),
      flowOf(`${lot} or S`, 'S', lot, perhaps, either),
      flowOf(`${lot} or flour`, 'flour', lot, perhaps, either),
      flowOf(`${lot} flour`, 'flour', lot, 1000 - surely - perhaps),
      flowOf(`mix ${lot}`, lot, 'mix', unweighed ? null : most, { certain: unweighed || least > 0 }),
    ];
  });
  const lots = [...rows.map((r, i) => lotOf(`lot${i}`, { mg: r.most === null ? null : 1000 })), lotOf('mix', out)];
  const mix = traceForward({ flows, lots: new Map(lots.map((l) => [l.id, l])) }, ['S']).get('mix');
  return { min: Number(mix?.min ?? 0n) / Number(whole), max: Number(mix?.max ?? whole) / Number(whole) };
}

type Terms = Readonly<Record<string, number>>;
/** The best value of an objective, with variables of zero or more, each sum of terms within its end. */
function optimum(
  direction: OptimizationDirection,
  objective: Terms,
  constraints: readonly (readonly [terms: Terms, end: Constraint])[],
): number {
  const names = new Set([objective, ...constraints.map(([terms]) => terms)].flatMap((terms) => Object.keys(terms)));
  const of = (name: string): [string, number][] => [
    ['objective', objective[name] ?? 0],
    ...constraints.map(([terms], i): [string, number] => [`c${i}`, terms[name] ?? 0]),
  ];
  const { status, result } = solve({
    direction,
    objective: 'objective',
    constraints: Object.fromEntries(constraints.map(([, end], i) => [`c${i}`, end])),
    variables: Object.fromEntries([...names].map((name) => [name, Object.fromEntries(of(name))])),
  });
  if (status !== 'optimal') throw new Error(`the programme is ${status}`);
  return result;
}
const terms = <T>(list: readonly T[], of: (one: T) => number): Terms => Object.fromEntries(list.map((one, i) => [`x${i}`, of(one)]));

describe('the extremes of a share', () => {
  it('are what a linear-programming library finds where nothing was weighed out', () => {
    // max Σ bᵢmᵢ ⁄ Σ mᵢ over amounts between their ends becomes linear with xᵢ = t·mᵢ and Σ xᵢ = 1 (Charnes and Cooper, 1962).
    const random = mulberry(5);
    for (let n = 0; n < 500; n += 1) {
      const rows = rowsOf(random);
      const { min, max } = shareOf(rows);
      const ends = rows.flatMap((r, i): [Terms, Constraint][] => [
        [{ [`x${i}`]: 1, t: -r.least }, greaterEq(0)],
        ...(r.most === null ? [] : [[{ [`x${i}`]: 1, t: -r.most }, lessEq(0)] satisfies [Terms, Constraint]]),
      ]);
      const all: [Terms, Constraint][] = [[terms(rows, () => 1), equalTo(1)], ...ends];
      expect(max).toBeCloseTo(
        optimum(
          'maximize',
          terms(rows, (r) => r.max),
          all,
        ),
        5,
      );
      expect(min).toBeCloseTo(
        optimum(
          'minimize',
          terms(rows, (r) => r.min),
          all,
        ),
        5,
      );
    }
  });

  it('are what it finds where something was lost, part of it water', () => {
    // Of what went in, `out` came out: at least so much of the loss was water `w`; the rest of it took `q` of the suspect and left `s`.
    const random = mulberry(6);
    let tried = 0;
    for (let n = 0; n < 500; n += 1) {
      const rows = rowsOf(random).flatMap((r) => (r.least === 0 ? [] : [{ ...r, most: r.least }]));
      const total = rows.reduce((sum, r) => sum + r.least, 0);
      const out = Math.ceil(total * (0.3 + random() * 0.7));
      const water = Math.floor((total - out) * random());
      const { min, max } = shareOf(rows, { outMg: out, outAt: weighed, evaporatedMg: water });
      const extreme = (way: OptimizationDirection, suspect: number): number =>
        optimum(way, { s: 1 }, [
          [{ s: 1, q: 1 }, equalTo(suspect)],
          [{ q: 1, w: 1 }, lessEq(total - out)],
          [{ w: 1 }, greaterEq(water)],
          [{ s: 1 }, lessEq(out)],
        ]) / out;
      const held = (of: (r: Row) => number): number => rows.reduce((sum, r) => sum + r.least * of(r), 0);
      if (held((r) => r.max) > out) continue; // more of it than came out: no amounts fit
      tried += 1;
      expect(max).toBeCloseTo(
        extreme(
          'maximize',
          held((r) => r.max),
        ),
        5,
      );
      expect(min).toBeCloseTo(
        extreme(
          'minimize',
          held((r) => r.min),
        ),
        5,
      );
    }
    expect(tried).toBeGreaterThan(300);
  });
});
