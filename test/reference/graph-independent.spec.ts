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

  it('are what it finds where lots of a group had too little, and where baked pieces lost water', () => {
    // A mixture of weighed lines, one amount of two or three lots of which each had only so much, and pieces that lost some of what is not the suspect.
    const random = mulberry(7);
    let bounded = 0;
    for (let n = 0; n < 500; n += 1) {
      const share = (): number => nat(random, 1001) / 1000;
      const [line, baked] = [
        { mg: 1 + nat(random, 500), of: share() },
        { mg: 10 * (1 + nat(random, 50)), of: share() },
      ];
      const amount = 1 + nat(random, 500);
      const group = Array.from({ length: 2 + nat(random, 2) }, () => ({ there: nat(random, 500), of: share() }));
      if (group.reduce((sum, g) => sum + g.there, 0) < amount) continue;
      bounded += 1;
      const { min, max } = mixtureOf(line, baked, amount, group);
      // x0: the line, x1: the suspect of the pieces, x2: the rest of them; then one for each lot of the group. All of them times t, the mass being 1.
      const suspect = baked.mg * baked.of;
      const of = [line.of, 1, 0, ...group.map((g) => g.of)];
      const ends: [Terms, Constraint][] = [
        [terms(of, () => 1), equalTo(1)],
        [{ x0: 1, t: -line.mg }, equalTo(0)],
        [{ x1: 1, t: -suspect }, equalTo(0)],
        [{ x2: 1, t: suspect - baked.mg }, lessEq(0)],
        [{ ...Object.fromEntries(group.map((_, i) => [`x${i + 3}`, 1])), t: -amount }, equalTo(0)],
        ...group.map(({ there }, i): [Terms, Constraint] => [{ [`x${i + 3}`]: 1, t: -there }, lessEq(0)]),
      ];
      const held = terms(of, (one) => one);
      expect(max).toBeCloseTo(optimum('maximize', held, ends), 5);
      expect(min).toBeCloseTo(optimum('minimize', held, ends), 5);
    }
    expect(bounded).toBeGreaterThan(200);
  });
});

interface Amount {
  readonly mg: number;
  /** Of which so much is the suspect. */
  readonly of: number;
}
/** What we say of a lot that these went into; each comes of a lot of 1,000 with so much of the suspect in it, the pieces of a batch of 10 from it. */
function mixtureOf(
  line: Amount,
  baked: Amount,
  amount: number,
  group: readonly { there: number; of: number }[],
): { min: number; max: number } {
  const mixed = [line.of, baked.of, ...group.map((g) => g.of)].flatMap((of, i) => [
    flowOf(`S ${i}`, 'S', `lot${i}`, Math.round(of * 1000)),
    flowOf(`flour ${i}`, 'flour', `lot${i}`, 1000 - Math.round(of * 1000)),
  ]);
  const flows = [
    ...mixed,
    flowOf('batched', 'lot1', 'batch', baked.mg, { pieces: 10 }),
    flowOf('line', 'lot0', 'mix', line.mg),
    flowOf('pieces', 'batch', 'mix', null, { pieces: 10 }),
    ...group.map((_, i) => flowOf(`group ${i}`, `lot${i + 2}`, 'mix', amount, { certain: false, anyOf: 'group' })),
  ];
  const lots = [
    lotOf('batch', { type: 'batch', mg: baked.mg, pieces: 10, pieceMg: baked.mg / 10 }),
    ...group.map(({ there }, i) => lotOf(`lot${i + 2}`, { mg: there })),
  ];
  const mix = traceForward({ flows, lots: new Map(lots.map((l) => [l.id, l])) }, ['S']).get('mix');
  return { min: Number(mix?.min ?? 0n) / Number(whole), max: Number(mix?.max ?? whole) / Number(whole) };
}
