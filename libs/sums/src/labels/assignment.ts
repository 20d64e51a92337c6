/**
 * Least total cost of giving each row a column of its own (Hungarian method with potentials, O(n³); Kuhn 1955, Munkres 1957). For an order of
 * visits it is a bound from below, since each order is one such assignment.
 */
export function leastAssignment(cost: readonly (readonly number[])[]): number {
  const n = cost.length;
  const rowPotential = new Float64Array(n + 1);
  const columnPotential = new Float64Array(n + 1);
  const rowOf = new Int32Array(n + 1); // columns count from 1; column 0 holds the row being placed
  for (let row = 1; row <= n; row += 1) place(row, cost, rowPotential, columnPotential, rowOf);
  let total = 0;
  for (let column = 1; column <= n; column += 1) total += at(cost, (rowOf[column] ?? 0) - 1, column - 1);
  return total;
}

const at = (cost: readonly (readonly number[])[], row: number, column: number): number => cost[row]?.[column] ?? Infinity;

function place(row: number, cost: readonly (readonly number[])[], u: Float64Array, v: Float64Array, rowOf: Int32Array): void {
  const n = cost.length;
  const least = new Float64Array(n + 1).fill(Infinity);
  const from = new Int32Array(n + 1);
  const used = new Uint8Array(n + 1);
  rowOf[0] = row;
  let column = 0;
  do {
    used[column] = 1;
    const current = rowOf[column] ?? 0;
    let [step, next] = [Infinity, 0];
    for (let j = 1; j <= n; j += 1) {
      if (used[j] === 1) continue;
      const reduced = at(cost, current - 1, j - 1) - (u[current] ?? 0) - (v[j] ?? 0);
      if (reduced < (least[j] ?? Infinity)) [least[j], from[j]] = [reduced, column];
      if ((least[j] ?? Infinity) < step) [step, next] = [least[j] ?? Infinity, j];
    }
    for (let j = 0; j <= n; j += 1) {
      if (used[j] === 1) {
        const held = rowOf[j] ?? 0;
        u[held] = (u[held] ?? 0) + step;
        v[j] = (v[j] ?? 0) - step;
      } else least[j] = (least[j] ?? Infinity) - step;
    }
    column = next;
  } while (rowOf[column] !== 0);
  while (column !== 0) {
    const back = from[column] ?? 0;
    rowOf[column] = rowOf[back] ?? 0;
    column = back;
  }
}
