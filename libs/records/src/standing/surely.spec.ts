import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { surelyCameFrom, surelyReached, type Link, type RoomOf } from './surely.js';

const link = (source: string, target: string, more: Partial<Link> = {}): Link => ({
  source,
  target,
  certain: true,
  anyOf: null,
  mg: 100,
  pieces: null,
  at: '2026-11-23T04:00:00.000Z',
  ...more,
});
const either = (target: string, mg: number | null, ...sources: string[]): Link[] =>
  sources.map((source) => link(source, target, { mg, certain: false, anyOf: `g ${target}` }));
const had =
  (rooms: Readonly<Record<string, number>>): RoomOf =>
  (l, unit) =>
    unit === 'mg' ? (rooms[l.source] ?? null) : null;
const unbounded = had({});
const surely = (begins: readonly string[], links: readonly Link[], roomOf = unbounded): string[] => [
  ...surelyReached(begins, links, roomOf).keys(),
];

describe('what surely holds what it begins at', () => {
  it('is what came of it over certain links, each by the nearest lot', () => {
    const links = [link('S', 'a'), link('a', 'b'), link('b', 'S'), link('b', 'c', { certain: false })];
    expect([...surelyReached(['S'], links, unbounded)].map(([lot, { by }]) => [lot, by])).toEqual([
      ['S', null],
      ['a', 'S'],
      ['b', 'a'],
    ]);
  });

  it('is what whichever lot of a group went into, however far they are from where it begins', () => {
    const links = [link('S', 'a'), link('S', 'b'), link('b', 'c'), ...either('round', 5, 'a', 'c')];
    expect(surely(['S'], links)).toEqual(['S', 'a', 'b', 'c', 'round']);
  });

  it('is what the other lots of the group had too little for, in figures of the same unit', () => {
    const links = either('dough', 300, 'S', 'b', 'c');
    expect(surely(['S'], links)).toEqual(['S']);
    expect(surely(['S'], links, had({ b: 200, c: 100 }))).toEqual(['S']);
    expect(surely(['S'], links, had({ b: 200, c: 99 }))).toEqual(['S', 'dough']);
    expect(surely(['S'], either('dough', null, 'S', 'b'), had({ b: 0 }))).toEqual(['S']);
  });

  it('is nothing where all lots of the group together had too little: then a figure is wrong', () => {
    expect(surely(['S'], either('dough', 300, 'S', 'b'), had({ S: 50, b: 200 }))).toEqual(['S']);
  });

  it('counts a lot once that is named in a group twice, as itself and as what came after another in its vessel', () => {
    expect(surely(['S'], either('dough', 300, 'S', 'b', 'b'), had({ b: 200 }))).toEqual(['S', 'dough']);
  });

  it('ends where a decision about what came of it was made, and such a lot counts as one that does not hold it', () => {
    const links = [link('S', 'a'), link('S', 'b'), ...either('round', 5, 'a', 'b')];
    expect([...surelyReached(['S'], links, unbounded, (lot) => lot !== 'b').keys()]).toEqual(['S', 'a', 'b']);
  });

  it('is not what left pieces before it was put on them, unless it came with what they are made of as well', () => {
    const [early, glazed, late] = ['04:00', '05:00', '06:00'].map((time) => `2026-11-23T${time}:00.000Z`);
    const on = link('S', 'batch', { putOn: true, at: glazed ?? '' });
    const left = [link('batch', 'early', { at: early ?? '' }), link('batch', 'late', { at: late ?? '' })];
    expect(surely(['S'], [on, ...left]).sort()).toEqual(['S', 'batch', 'late']);
    const dough = [link('S', 'dough', { at: early ?? '' }), link('dough', 'batch', { at: early ?? '' })];
    expect(surely(['S'], [on, ...left, ...dough]).sort()).toEqual(['S', 'batch', 'dough', 'early', 'late']);
  });

  it('is asked the other way of each lot by itself: of neither of two that had enough, and of one that must have been it', () => {
    const links = [...either('dough', 300, 'a', 'b'), link('c', 'a')];
    expect([...surelyCameFrom(['dough'], links, unbounded).keys()]).toEqual(['dough']);
    expect([...surelyCameFrom(['dough'], links, had({ b: 200 })).keys()]).toEqual(['dough', 'a', 'c']);
  });

  /** By what the records mean: each group is tried with every division of its amount, in whole units, that its lots had enough for. */
  it('is what holds it in every world that fits the records, and nothing else', () => {
    const names = ['S', 'n1', 'n2', 'n3', 'n4', 'n5'];
    const group = fc.record({
      to: fc.integer({ min: 1, max: 5 }),
      from: fc.uniqueArray(fc.nat(4), { minLength: 1, maxLength: 3 }),
      mg: fc.integer({ min: 1, max: 4 }),
    });
    const drawn = fc.record({ groups: fc.array(group, { maxLength: 4 }), rooms: fc.array(fc.nat(4), { minLength: 6, maxLength: 6 }) });
    fc.assert(
      fc.property(drawn, ({ groups, rooms }) => {
        const lines = groups.flatMap(({ to, from, mg }, i) => {
          const sources = from.filter((n) => n < to);
          return sources.length === 0 ? [] : [{ target: names[to] ?? '', sources: sources.map((n) => names[n] ?? ''), mg, id: `g${i}` }];
        });
        const room = (lot: string): number => rooms[names.indexOf(lot)] ?? 0;
        const sure = (l: (typeof lines)[number]): boolean => l.sources.length === 1;
        fc.pre(lines.every((l) => sure(l) || l.sources.reduce((sum, s) => sum + Math.min(room(s), l.mg), 0) >= l.mg));
        const links = lines.flatMap((l) =>
          l.sources.map((s) => link(s, l.target, { mg: l.mg, certain: sure(l), anyOf: sure(l) ? null : l.id })),
        );
        const found = new Set(surely(['S'], links, (l) => room(l.source)));
        const everywhere = names.filter((_, n) => worlds(lines, room, sure).every((holds) => holds.has(names[n] ?? '')));
        expect([...found].sort()).toEqual(everywhere.sort());
      }),
    );
  });
});

interface Line {
  readonly target: string;
  readonly sources: readonly string[];
  readonly mg: number;
}

/** The lots that hold some of S, in each world: lines in the order of their targets, so that what goes into something was made before. */
function worlds<L extends Line>(lines: readonly L[], room: (lot: string) => number, sure: (l: L) => boolean): ReadonlySet<string>[] {
  let all: ReadonlySet<string>[] = [new Set(['S'])];
  for (const l of [...lines].sort((a, b) => (a.target < b.target ? -1 : 1))) {
    const used = sure(l) ? [l.sources] : divisions(l.sources, l.mg, room);
    all = all.flatMap((holds) => used.map((of) => (of.some((s) => holds.has(s)) ? new Set([...holds, l.target]) : holds)));
  }
  return all;
}

/** Which lots some of an amount was of, for each way to divide it. */
function divisions([first, ...rest]: readonly string[], mg: number, room: (lot: string) => number): string[][] {
  if (first === undefined) return mg === 0 ? [[]] : [];
  return Array.from({ length: Math.min(mg, room(first)) + 1 }, (_, part) =>
    divisions(rest, mg - part, room).map((of) => (part > 0 ? [first, ...of] : of)),
  ).flat();
}
