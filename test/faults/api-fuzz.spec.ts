import v8 from 'node:v8';
import vm from 'node:vm';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { problems } from '@bakehouse/kernel';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { described, type Description } from '../support/described.js';
import { FullHouse } from '../support/full-house.js';
import { FuzzedRequests, type Fuzzed } from '../support/fuzzed-requests.js';
import { injected, type Answer } from '../support/injected.js';
import { size } from '../support/size.js';
import { verified } from '../support/verified.js';

/** Another seed: `SEED=12 npm test -- api-fuzz`; each failure tells it. Fewer: `REQUESTS=2000`; more with `TEST_SIZE=full`. */
const seed = Number(process.env['SEED'] ?? 1);
const requests = size(Number(process.env['REQUESTS'] ?? 5_000), 100_000);
/** Each house takes so many: what a house holds is shown at every look, so that one house for a million would measure itself. */
const perHouse = Math.min(5_000, requests / 4);
const concurrency = 8;

v8.setFlagsFromString('--expose-gc');
const collect: () => void = vm.runInNewContext('gc');
/** Megabytes in use after what nobody holds was let go. */
function heapMb(): number {
  collect();
  collect();
  return process.memoryUsage().heapUsed / 1_048_576;
}

let t: TestApp;
let description: Description;
let validators: Validators;
beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock('2026-11-25T04:00:00Z') });
  description = await described(t);
  validators = new Validators(description.whole);
});
afterAll(() => t.close());

/** Whether an answer is as it is described. */
class Validators {
  private readonly ajv = addFormats.default(new Ajv2020({ strict: false }));
  private readonly made = new Map<string, ValidateFunction>();

  constructor(whole: unknown) {
    this.ajv.addSchema({ $id: 'api', ...Object(whole) });
  }

  faults({ of }: Fuzzed, status: number, body: unknown): unknown {
    if (!of.answers.has(status)) return undefined;
    const where = ['paths', of.path, of.method.toLowerCase(), 'responses', String(status), 'content', 'application/json', 'schema'];
    const ref = `api#/${where.map((step) => encodeURIComponent(step.replaceAll('~', '~0').replaceAll('/', '~1'))).join('/')}`;
    const validate = this.made.get(ref) ?? this.ajv.compile({ $ref: ref });
    this.made.set(ref, validate);
    return validate(body) ? undefined : validate.errors?.slice(0, 3);
  }
}

const codes = new Set(Object.keys(problems));
const ours = /node_modules|\.ts:|\.js:|Error:|\n\s+at |SELECT |pg_/;

/** What is wrong with an answer, if anything is. */
function wrongWith(request: Fuzzed, { status, type, retryAfter, text }: Answer, sampled: boolean): unknown {
  if (status >= 500 && (status !== 503 || retryAfter === undefined)) return 'failed';
  const json = type.includes('json') && text !== '' ? JSON.parse(text) : undefined;
  if (status < 400 || request.of.answers.has(status))
    return sampled && type.startsWith('application/json') ? validators.faults(request, status, json) : undefined;
  if (type !== 'application/problem+json; charset=utf-8') return `of type ${type}`;
  if (json.status !== status || !codes.has(String(json.type).split('/problems/')[1] ?? '')) return 'no known code';
  return ours.test(text) ? 'tells of how we are built' : undefined;
}

interface Tally {
  readonly wrong: unknown[];
  readonly statuses: Map<string, number>;
  /** How many were told to come again, for a stated reason. */
  unavailable: number;
}

/** How many are asked before those whose sessions were ended are replaced, and wrong PINs forgotten: nobody asks anything meanwhile. */
const together = 200;

/** A round of requests at one house, several at once. */
async function round(house: FullHouse, from: number, until: number, tally: Tally): Promise<void> {
  const all = new FuzzedRequests(description, house, seed);
  for (let first = from; first < until; first += together) {
    await house.again();
    const last = Math.min(until, first + together);
    let next = first;
    const worker = async (): Promise<void> => {
      while (next < last && tally.wrong.length < 60) await one(all, next++, tally);
    };
    await Promise.all(Array.from({ length: concurrency }, worker));
  }
}

async function one(all: FuzzedRequests, number: number, tally: Tally): Promise<void> {
  const request = await all.request(number);
  const answer = await injected(t, request).catch((error: unknown): Answer => ({
    status: 599,
    type: '',
    retryAfter: undefined,
    text: String(error),
  }));
  const key = `${request.of.name} ${answer.status}`;
  tally.statuses.set(key, (tally.statuses.get(key) ?? 0) + 1);
  if (answer.status === 503) tally.unavailable += 1;
  const fault = wrongWith(request, answer, number % 4 === 0);
  if (fault !== undefined) tally.wrong.push(told(number, request, answer, fault));
}

const told = (number: number, { method, url, by, payload, headers }: Fuzzed, { status, text }: Answer, fault: unknown): unknown => ({
  seed,
  number,
  fault,
  asked: `${method} ${url.slice(0, 300)}`,
  by,
  headers: JSON.stringify(headers).slice(0, 300),
  sent: payload?.toString().slice(0, 600),
  answered: `${status} ${text.slice(0, 400)}`,
});

/** What the service may hold more of after the last house than after the first: its caches, which have bounds of their own. 8 MB were measured. */
const grownMb = 64;

describe('requests made from the API’s description', () => {
  it('are all answered: as described or refused in a known way, and none as a fault of the service', async () => {
    const tally: Tally = { wrong: [], statuses: new Map(), unavailable: 0 };
    const heaps: number[] = [];
    for (let from = 0; from < requests; from += perHouse) {
      const house = await FullHouse.found(t, `House of ${from}`);
      await round(house, from, Math.min(requests, from + perHouse), tally);
      expect(tally.wrong).toEqual([]);
      expect((await verified(t, house.b.house)).faults).toEqual([]);
      heaps.push(heapMb());
    }
    expect(tally.unavailable).toBe(0);
    expect(Math.max(...heaps) - (heaps[0] ?? 0)).toBeLessThan(grownMb);
    const asked = [...tally.statuses.keys()];
    expect(description.operations.filter((o) => !asked.some((key) => key.startsWith(`${o.name} `)))).toEqual([]);
  });
});
