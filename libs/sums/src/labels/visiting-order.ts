import { leastAssignment } from './assignment.js';

/** Cost of going from one to the next, whole numbers; `forbidden` where it must not happen. */
export type Costs = readonly (readonly number[])[];
export const forbidden = 1e13;
/** 2¹⁵ × 15 states of subset and last: some 7 million steps, well under a second. */
export const exactUpTo = 15;

const step = (costs: Costs, from: number, to: number): number => costs[from]?.[to] ?? forbidden;
export const orderCost = (costs: Costs, order: readonly number[]): number =>
  order.reduce((sum, to, index) => sum + (index === 0 ? 0 : step(costs, order[index - 1] ?? 0, to)), 0);

/** The cheapest order, and of several the one that is earliest as listed: dynamic programming over subsets (Bellman 1962, Held and Karp 1962). */
export function cheapestOrder(costs: Costs): number[] {
  const n = costs.length;
  const all = (1 << n) - 1;
  const rest = new Float64Array((1 << n) * n).fill(Infinity); // the least cost of what remains, from a visited set and its last
  for (let last = 0; last < n; last += 1) rest[all * n + last] = 0;
  for (let visited = all - 1; visited > 0; visited -= 1) {
    for (let last = 0; last < n; last += 1) {
      if ((visited & (1 << last)) === 0) continue;
      let least = Infinity;
      for (let next = 0; next < n; next += 1) {
        if ((visited & (1 << next)) !== 0) continue;
        const cost = step(costs, last, next) + (rest[(visited | (1 << next)) * n + next] ?? Infinity);
        if (cost < least) least = cost;
      }
      rest[visited * n + last] = least;
    }
  }
  const order: number[] = [];
  for (let visited = 0; visited !== all;) {
    const last = order.at(-1);
    let [least, chosen] = [Infinity, 0];
    for (let next = 0; next < n; next += 1) {
      if ((visited & (1 << next)) !== 0) continue;
      const cost = (last === undefined ? 0 : step(costs, last, next)) + (rest[(visited | (1 << next)) * n + next] ?? Infinity);
      if (cost < least) [least, chosen] = [cost, next];
    }
    order.push(chosen);
    visited |= 1 << chosen;
  }
  return order;
}

function nearestFrom(costs: Costs, start: number): number[] {
  const left = new Set(costs.keys());
  const order = [start];
  left.delete(start);
  while (left.size > 0) {
    const last = order.at(-1) ?? start;
    let [least, chosen] = [Infinity, start];
    for (const next of left) if (step(costs, last, next) < least) [least, chosen] = [step(costs, last, next), next];
    order.push(chosen);
    left.delete(chosen);
  }
  return order;
}

/** Moves runs of one to three to where they cost less until no move helps, at most `rounds` times. */
function improved(costs: Costs, start: readonly number[], rounds: number): number[] {
  let order = [...start];
  let cost = orderCost(costs, order);
  for (let round = 0; round < rounds; round += 1) {
    const better = betterMove(costs, order, cost);
    if (better === null) return order;
    [order, cost] = [better, orderCost(costs, better)];
  }
  return order;
}

function betterMove(costs: Costs, order: readonly number[], cost: number): number[] | null {
  for (let length = 1; length <= 3; length += 1) {
    for (let from = 0; from + length <= order.length; from += 1) {
      const run = order.slice(from, from + length);
      const without = [...order.slice(0, from), ...order.slice(from + length)];
      const base = orderCost(costs, without) + orderCost(costs, run);
      for (let to = 0; to <= without.length; to += 1) {
        const [before, after] = [without[to - 1], without[to]];
        const joined =
          (before === undefined ? 0 : step(costs, before, run[0] ?? 0)) + (after === undefined ? 0 : step(costs, run.at(-1) ?? 0, after));
        const parted = before === undefined || after === undefined ? 0 : step(costs, before, after);
        if (base + joined - parted < cost) return [...without.slice(0, to), ...run, ...without.slice(to)];
      }
    }
  }
  return null;
}

const starts = 12;
const rounds = 400;

/** A good order for many: nearest first from several starts, then moved about. Bounded work; not always the cheapest. */
export function goodOrder(costs: Costs): number[] {
  let best = improved(costs, nearestFrom(costs, 0), rounds);
  for (let start = 1; start < Math.min(starts, costs.length); start += 1) {
    const order = improved(costs, nearestFrom(costs, start), rounds);
    if (orderCost(costs, order) < orderCost(costs, best)) best = order;
  }
  return best;
}

/** No order costs less than this: the least assignment of a next to each, with a free start and end. */
export function lowerBound(costs: Costs): number {
  const n = costs.length;
  if (n < 2) return 0;
  const rows = costs.map((row, from) => [...row.map((cost, to) => (from === to ? forbidden : cost)), 0]);
  return leastAssignment([...rows, [...Array.from({ length: n }, () => 0), forbidden]]);
}
