import pg from 'pg';
import { endsOf } from '../../apps/api/dist/modules/trace/ends.query.js';
import { reachableGraph, type Direction } from '../../apps/api/dist/modules/trace/reach.query.js';
import { servicePool, Tenancy } from '../../apps/api/dist/platform/database/index.js';
import { chain, fillTenYears, type TenYears } from '../support/ten-years.js';
import { percentile, timed, timedAsync, type Row } from './_measure.js';
import { benchDatabase } from './_service.js';

const sizes = [100_000, 1_000_000, ...(process.argv.includes('--large') ? [10_000_000] : [])];
const times = Number(process.env['BENCH_PAIRS'] ?? 15);

interface Question {
  readonly what: string;
  readonly from: string;
  readonly direction: Direction;
}
const questions = (house: TenYears): readonly Question[] => [
  { what: 'a flour, forward', from: house.lot('flour', 77), direction: 'forward' },
  { what: 'a batch, backward', from: house.lot('batch', 231), direction: 'backward' },
  { what: 'the chain, forward', from: house.lot('starter', 0), direction: 'forward' },
  { what: 'the chain, backward', from: house.lot('starter', chain.days), direction: 'backward' },
];

/**
 * The queries of a trace over ten years of one organisation, in which the same questions have the same answers whatever else there is: reach with its
 * links and lots, and where they went. Cold is the first answer of a new connection with nothing analysed since the rows came; then against one
 * indexed look-up over the same connection, and against a breadth-first search over arrays in memory that finds the same lots.
 */
export async function run(): Promise<Row[]> {
  const database = await benchDatabase();
  try {
    const rows: Row[] = [];
    for (const flows of sizes) rows.push(...(await ofSize(flows, await database.url(`trace_${flows}`), database.serviceUrl)));
    return rows;
  } finally {
    await database.stop();
  }
}

async function ofSize(flows: number, url: string, serviceUrl: (url: string) => string): Promise<Row[]> {
  const owner = new pg.Client({ connectionString: url });
  await owner.connect();
  const house = await fillTenYears(owner, flows);
  await owner.query('CHECKPOINT');
  const graph = await inMemory(owner);
  const rows: Row[] = [];
  for (const question of questions(house))
    rows.push({ what: question.what, flows, ...(await measured(house, question, graph, serviceUrl(url))) });
  await owner.end();
  return rows;
}

async function measured(house: TenYears, { from, direction }: Question, graph: InMemory, url: string): Promise<Row> {
  const pool = servicePool(url, 1);
  const tenancy = new Tenancy(pool);
  const reading = <T>(work: (client: pg.ClientBase) => Promise<T>): Promise<T> => tenancy.reading(house.organisation, work);
  let lots = 0;
  const ask = (): Promise<unknown> =>
    reading(async (client) => {
      const { reached } = await reachableGraph(client, house.organisation, [from], direction, direction === 'forward');
      lots = reached.length;
      return endsOf(client, house.organisation, reached);
    });
  const lookUp = (): Promise<unknown> =>
    reading((client) => client.query('SELECT * FROM lot WHERE organisation = $1 AND id = $2', [house.organisation, from]));
  const cold = await timedAsync(ask);
  const [mine, trips, memory]: [number[], number[], number[]] = [[], [], []];
  for (let i = 0; i < times; i += 1) {
    trips.push(await timedAsync(lookUp));
    mine.push(await timedAsync(ask));
    memory.push(timed(() => graph.reach(from, direction)));
  }
  await pool.end();
  if (graph.reach(from, direction) !== lots) throw new Error(`the two find different lots: ${graph.reach(from, direction)} and ${lots}`);
  return {
    lots,
    'cold ms': cold,
    'p50 ms': percentile(mine, 0.5),
    'p95 ms': percentile(mine, 0.95),
    'look-up ms': percentile(trips, 0.5),
    'of look-up': percentile(mine, 0.5) / percentile(trips, 0.5),
    'in memory ms': percentile(memory, 0.5),
    'of memory': percentile(mine, 0.5) / percentile(memory, 0.5),
  };
}

interface InMemory {
  readonly reach: (from: string, direction: Direction) => number;
}

/** All flows as two adjacency lists in typed arrays, and a breadth-first search over them that counts what it reaches. */
async function inMemory(owner: pg.Client): Promise<InMemory> {
  const numbers = new Map<string, number>();
  const numberOf = (id: string): number => {
    const known = numbers.get(id) ?? numbers.size;
    numbers.set(id, known);
    return known;
  };
  const [sources, targets]: [number[], number[]] = [[], []];
  await owner.query('BEGIN; DECLARE links NO SCROLL CURSOR FOR SELECT source, target FROM flow');
  for (;;) {
    const { rows } = await owner.query<{ source: string; target: string }>('FETCH 50000 FROM links');
    if (rows.length === 0) break;
    for (const { source, target } of rows) {
      sources.push(numberOf(source));
      targets.push(numberOf(target));
    }
  }
  await owner.query('COMMIT');
  const lists = { forward: adjacency(numbers.size, sources, targets), backward: adjacency(numbers.size, targets, sources) };
  return { reach: (from, direction) => search(numbers.size, lists[direction], numberOf(from)) };
}

interface Adjacency {
  readonly first: Uint32Array;
  readonly next: Uint32Array;
}
function adjacency(size: number, near: readonly number[], far: readonly number[]): Adjacency {
  const first = new Uint32Array(size + 1);
  for (const n of near) first[n + 1] = (first[n + 1] ?? 0) + 1;
  for (let n = 0; n < size; n += 1) first[n + 1] = (first[n + 1] ?? 0) + (first[n] ?? 0);
  const [at, next] = [first.slice(), new Uint32Array(near.length)];
  near.forEach((n, i) => {
    const place = at[n] ?? 0;
    next[place] = far[i] ?? 0;
    at[n] = place + 1;
  });
  return { first, next };
}

function search(size: number, { first, next }: Adjacency, from: number): number {
  const [seen, queue] = [new Uint8Array(size), new Uint32Array(size)];
  let end = 1;
  queue[0] = from;
  seen[from] = 1;
  for (let at = 0; at < end; at += 1) {
    const lot = queue[at] ?? 0;
    for (let i = first[lot] ?? 0; i < (first[lot + 1] ?? 0); i += 1) {
      const to = next[i] ?? 0;
      if (seen[to] === 1) continue;
      seen[to] = 1;
      queue[end] = to;
      end += 1;
    }
  }
  return end;
}
