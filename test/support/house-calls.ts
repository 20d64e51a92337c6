import type { Operation } from './described.js';

/** Gives the id to put at a place that takes one: a field's or a parameter's name. */
export type Pick = (place: string) => string;

/** What stands in a query where it is no id, and nothing for what a call does without. A name that is not here fails. */
const inQuery: Readonly<Record<string, ((pick: Pick) => string) | undefined>> = {
  before: (pick) => pick('event'),
  organisation: (pick) => pick('organisation'),
  'get /sites/{site}/signed-heads?site': () => '1',
  'get /sites/{site}/signed-heads?organisation': () => '1',
  day: () => '2026-11-25',
  since: (pick) => pick('version'),
  from: () => '2026-11-24',
  until: () => '2026-11-26',
  words: (pick) => pick('code'),
  limit: () => '200',
  'get /search?limit': () => '20',
  direction: () => 'forward',
  size: () => 'a4',
  part: () => 'notice',
  customer: undefined, // of the customer's own notice alone
  lots: (pick) => pick('lot'),
  hazard: () => 'microbiological',
  archived: () => 'no',
  number: () => '1',
  pieces: (pick) => `${pick('product')}:4`,
  besidesGrams: undefined,
  grams: undefined,
  pounds: undefined,
  ounces: undefined,
  mixer: (pick) => pick('mixer'),
  flour: () => '21',
  room: () => '24',
  wanted: () => '26',
  leaven: () => '24',
  unit: () => 'degC',
  by: () => 'instrument',
  of: (pick) => pick('instrument'),
  measured: () => 'core',
  parameter: () => 'core temperature',
  point: () => 'bloomer-core',
};

/** What stands in a path; `draft` is of the type that the path names. */
const inPath: Readonly<Record<string, (pick: Pick, path: string) => string>> = {
  ...Object.fromEntries(
    ['site', 'person', 'device', 'sha256', 'lot', 'recall', 'book', 'order', 'instrument', 'formula', 'plan', 'deviation'].map((name) => [
      name,
      (pick: Pick) => pick(name),
    ]),
  ),
  draft: (pick, path) => pick(path.includes('/plans/') ? 'planDraft' : 'formulaDraft'),
  size: (pick, path) => pick(path.includes('/sites/') ? 'siteSize' : 'houseSize'),
};

export interface BodyOf {
  readonly pick: Pick;
  readonly pin: string;
  readonly newId: () => string;
  readonly photo: Buffer;
  readonly code: string;
  readonly entries: (book: 'site' | 'organisation') => readonly unknown[];
  readonly toSign: (pick: Pick) => unknown;
}

/** Each body, by its operation. One that is not here fails, but for a calculation, which has an example. */
const bodies: Readonly<Record<string, (of: BodyOf) => unknown>> = {
  'post /sites/{site}/entries': ({ entries }) => entries('site'),
  'post /organisation/entries': ({ entries }) => entries('organisation'),
  'post /sign-on': ({ pick, pin }) => ({ person: pick('person'), pin, organisation: pick('organisation') }),
  'post /sign-on/own-pin': ({ pick, pin }) => ({ person: pick('person'), pin, newPin: '481937', organisation: pick('organisation') }),
  'post /sign-on/tap': ({ pick }) => ({ person: pick('person') }),
  'post /signatures': ({ pick, pin, toSign }) => ({ pin, entry: toSign(pick) }),
  'post /people/{person}/pin': ({ pin }) => ({ pin: '592048', currentPin: pin }),
  'post /devices/enrolment-codes': ({ pick, pin }) => ({ site: pick('site'), currentPin: pin }),
  'post /devices/enrol': ({ code }) => ({ code, name: 'Another table' }),
  'post /devices/{device}/revocation': ({ pin }) => ({ currentPin: pin }),
  'post /people/{person}/sessions/end': ({ pin }) => ({ currentPin: pin }),
  'put /sites/{site}/photos/{sha256}': ({ photo }) => photo,
  'post /sites/{site}/signed-heads/differ': ({ pick }) => ({
    ...{ book: pick('site'), why: 'forked', now: { note: 'no note', verifierKey: 'no key' } },
    seen: { note: 'no note', verifierKey: 'no key', at: '2026-11-25T03:00:00.000Z' },
  }),
  'post /recalls': ({ pick, newId }) => ({ id: newId(), suspect: [pick('lot')], hazard: 'chemical', hazardName: 'soap', practice: true }),
  'post /formulas/drafts': ({ pick, newId }) => ({ id: newId(), formula: pick('formula') }),
  'put /formulas/drafts/{draft}': ({ pick }) => ({ lines: [{ material: pick('material') }] }),
  'post /plans/drafts': ({ pick, newId }) => ({ id: newId(), series: pick('series'), site: pick('site') }),
  'put /plans/drafts/{draft}': ({ pick }) => ({ points: [{ material: pick('material') }] }),
};

export interface Called {
  readonly url: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly payload: string | Buffer | undefined;
}

/** The call of an operation with the ids that are picked. @throws where the operation has something that no call here knows */
export function calling(operation: Operation, of: BodyOf): Called {
  const query = operation.parameters
    .filter((p) => p.in === 'query')
    .flatMap(({ name }) => {
      const key = `${operation.name}?${name}` in inQuery ? `${operation.name}?${name}` : name;
      if (!(key in inQuery)) throw new Error(`${operation.name}: no value is known for the query's ${name}`);
      const value = inQuery[key]?.(of.pick);
      return value === undefined ? [] : [`${name}=${encodeURIComponent(value)}`];
    });
  const path = operation.path.replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = inPath[name];
    if (value === undefined) throw new Error(`${operation.name}: no value is known for the path's ${name}`);
    return value(of.pick, operation.path);
  });
  const body = bodyOf(operation, of);
  return {
    url: query.length === 0 ? path : `${path}?${query.join('&')}`,
    headers: {
      ...(body === undefined ? {} : { 'content-type': operation.body?.type ?? '' }),
      ...(operation.parameters.some((p) => p.name === 'If-Match') ? { 'if-match': `"${operation.method === 'PUT' ? 1 : 2}"` } : {}),
    },
    payload: body,
  };
}

function bodyOf({ name, path, body }: Operation, of: BodyOf): string | Buffer | undefined {
  if (body === undefined) return undefined;
  const make = bodies[name];
  if (make === undefined && !path.includes('/calculate/')) throw new Error(`${name}: no body is known for it`);
  const made = make === undefined ? body.example : make(of);
  return Buffer.isBuffer(made) ? made : JSON.stringify(made);
}
