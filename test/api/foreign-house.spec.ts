import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { kinds } from '@bakehouse/records';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { described, type Operation } from '../support/described.js';
import type { Sample } from '../support/every-kind.js';
import type { Calls } from '../support/full-house.js';
import { calling, type Pick } from '../support/house-calls.js';
import { injected, type Answer } from '../support/injected.js';
import { leavesOf, replaced } from '../support/mutate.js';
import { ToldApart } from '../support/told-apart.js';
import { idsIn, rowsOf } from '../support/whats-of-a-house.js';

/** What shows something of a house to everybody who knows the house's id, as it says of itself. */
const shownToAnybody = ['get /sign-on/people', 'get /counter', 'get /counter/sites', 'get /counter/{site}', 'get /seal-keys/{book}'];
/** Where somebody signs on a wrong try is counted, and told, in the house that it was about. */
const triesAreKept = new Set(['guess_count', 'security_event']);

let t: TestApp;
let operations: readonly Operation[];
let ours: ToldApart;
let theirs: ToldApart;
let theirIds: ReadonlySet<string>;
beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock('2026-11-25T04:00:00Z') });
  ({ operations } = await described(t));
  ours = await ToldApart.found(t, 'Oursmark', '#c96');
  theirs = await ToldApart.found(t, 'Theirsmark', '#69c');
  const [a, b] = [await rowsOf(t, ours.full.b.house.organisation), await rowsOf(t, theirs.full.b.house.organisation)];
  const of = new Set(idsIn([...a.values()].join('\n')));
  theirIds = new Set(idsIn([...b.values()].join('\n')).filter((id) => !of.has(id)));
});
afterAll(() => t.close());

const everyId = /[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/;

/** Samples of ours for a book, each with an id of theirs at one place after the other, and theirs as they stand. */
function entriesWith(foreign: boolean, book: 'site' | 'organisation'): unknown[] {
  const of = (h: ToldApart): Sample[] =>
    h.full.samples().filter((s) => (kinds.find((k) => k.name === s.kind)?.book === 'organisation') === (book === 'organisation'));
  const entry = (sample: Sample): unknown => ours.full.b.house.rawEntry(sample);
  if (!foreign) return of(ours).slice(0, 200).map(entry);
  const [mine, other] = [of(ours), of(theirs)];
  const mixed = mine.flatMap((sample, i) =>
    leavesOf(sample.payload).flatMap((path) => {
      const there = at(other[i]?.payload, path);
      return typeof there === 'string' && everyId.test(there) ? [{ ...sample, payload: replaced(sample.payload, path, there) }] : [];
    }),
  );
  return [...other, ...mixed].slice(0, 200).map(entry);
}
const at = (value: unknown, path: readonly (string | number)[]): unknown =>
  path.reduce<unknown>((of, key) => (typeof of === 'object' && of !== null ? Reflect.get(of, key) : undefined), value);

/** A call of an operation by somebody, with ids of theirs at these places and ours at all others. */
async function call(
  operation: Operation,
  by: Calls,
  places: ReadonlySet<string>,
  asked = new Set<string>(),
): Promise<Answer & { sent: string }> {
  const pick: Pick = (place) => {
    asked.add(place);
    return (places.has(place) ? theirs : ours).id(place);
  };
  const { b } = ours.full;
  const { url, headers, payload } = calling(operation, {
    pick,
    pin: by.pin === '' ? '000000' : by.pin,
    newId: () => b.newId(),
    photo: ours.photo,
    code: `${(places.has('code') ? theirs : ours).id('organisation')}.ABCD-EFGH`,
    entries: (book) => {
      asked.add('entries');
      return entriesWith(places.has('entries'), book);
    },
    toSign: (take) => b.house.rawEntry({ kind: 'hold-lifted', payload: { hold: take('hold') }, words: { why: 'x' } }),
  });
  const remoteAddress = `10.1.${Math.floor(sent / 250) % 250}.${sent % 250}`;
  sent += 1;
  const answer = await injected(t, { method: operation.method, url, headers: { ...headers, ...by.headers }, payload, remoteAddress });
  return { ...answer, sent: `${url} ${payload?.toString() ?? ''}` };
}
let sent = 0;

/** What an answer shows of theirs that was not in the question. */
function shownOfTheirs({ text, sent: question }: Answer & { sent: string }): unknown[] {
  const asked = new Set(idsIn(question));
  return [
    ...idsIn(text).filter((id) => theirIds.has(id) && !asked.has(id)),
    ...(text.includes(theirs.word) && !question.includes(theirs.word) ? [theirs.word] : []),
  ];
}

/** The places of an operation that take an id, by asking for a call of it. */
async function placesOf(operation: Operation): Promise<string[]> {
  const asked = new Set<string>();
  await call(operation, { name: 'nobody', headers: {}, pin: '' }, new Set(), asked);
  return [...asked];
}

/** Every call with theirs at each place alone and at all of them, by everybody of our house. */
async function census(of: readonly Operation[]): Promise<{ wrong: unknown[]; calls: number }> {
  const wrong: unknown[] = [];
  let calls = 0;
  for (const operation of of) {
    const places = await placesOf(operation);
    for (const foreign of places.length > 1 ? [...places.map((p) => [p]), places] : places.map((p) => [p])) {
      for (const by of ours.full.callers()) {
        calls += 1;
        const answer = await call(operation, by, new Set(foreign));
        const told = (fault: unknown) =>
          wrong.push(
            JSON.stringify({ of: operation.name, foreign, by: by.name, fault, status: answer.status, text: answer.text.slice(0, 300) }),
          );
        const shown = shownOfTheirs(answer);
        if (answer.status >= 500) told('failed');
        if (shown.length > 0 && !shownToAnybody.includes(operation.name)) told(shown.slice(0, 5));
        if (
          answer.status < 400 &&
          !shownToAnybody.includes(operation.name) &&
          foreign.some((p) => operation.path.includes(`{${p.replace(/^.*Draft$/, 'draft')}}`))
        )
          told('not refused');
      }
    }
  }
  return { wrong, calls };
}

const changed = (before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>): string[] =>
  [...before].flatMap(([name, text]) => (after.get(name) === text ? [] : [name]));

/** What ends something that others need comes last. */
const atTheEnd = ['post /people/{person}/pin', 'post /people/{person}/sessions/end', 'post /devices/{device}/revocation', 'post /sign-off'];

describe('the same calls with ids of one’s own house', () => {
  it('are answered, and tell nothing of the other house', async () => {
    const { b } = ours.full;
    const calls = ours.full.callers();
    const everybody = calls.find((c) => c.name === 'everybody');
    const viewer = ours.full.caller('viewer');
    const order = (o: Operation): number => (o.method === 'GET' ? 0 : 2 + atTheEnd.indexOf(o.name));
    const wrong: unknown[] = [];
    for (const operation of [...operations].sort((x, y) => order(x) - order(y))) {
      if (operation.name === 'post /devices/enrol') continue; // its code is made for one device: what is answered is seen in `enrolledTablet`
      const own = /^post \/sign-on($|\/own-pin)/.test(operation.name) ? viewer.pin : (everybody?.pin ?? '');
      const device = operation.name.endsWith('/tap') ? { 'x-device-token': b.tablet.token } : {};
      const answer = await call(operation, { name: 'everybody', headers: { ...everybody?.headers, ...device }, pin: own }, new Set());
      const shown = shownOfTheirs(answer);
      if (answer.status >= 300 || shown.length > 0)
        wrong.push(JSON.stringify({ of: operation.name, status: answer.status, text: answer.text.slice(0, 300), shown }));
    }
    expect(wrong).toEqual([]);
    await ours.full.again();
  });
});

describe('somebody of one house who asks with ids of another', () => {
  it('calls operations that each have a way of being called here', () => {
    const unknown = operations.flatMap((operation) => {
      try {
        calling(operation, {
          pick: () => randomUUID(),
          pin: '1',
          newId: randomUUID,
          photo: ours.photo,
          code: 'x',
          entries: () => [],
          toSign: () => ({}),
        });
        return [];
      } catch (error) {
        return [String(error)];
      }
    });
    expect(unknown).toEqual([]);
  });

  it('is refused, is shown nothing of it, and changes nothing in it', async () => {
    const before = await rowsOf(t, theirs.full.b.house.organisation);
    const { wrong, calls } = await census(operations.filter((o) => !o.open));
    expect(wrong).toEqual([]);
    expect(calls).toBeGreaterThan(600);
    expect(changed(before, await rowsOf(t, theirs.full.b.house.organisation))).toEqual([]);
  });

  it('is shown without signing on only what is for anybody, and has no more than tries counted', async () => {
    expect(operations.filter((o) => shownToAnybody.includes(o.name) && o.open && o.method === 'GET')).toHaveLength(shownToAnybody.length);
    const before = await rowsOf(t, theirs.full.b.house.organisation);
    const { wrong, calls } = await census(operations.filter((o) => o.open && o.name !== 'post /sign-off'));
    expect(wrong).toEqual([]);
    expect(calls).toBeGreaterThan(100);
    expect(changed(before, await rowsOf(t, theirs.full.b.house.organisation)).filter((name) => !triesAreKept.has(name))).toEqual([]);
  });
});
