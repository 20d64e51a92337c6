import { describe, expect, it } from '@jest/globals';
import { checkpointText, leafHash, publicKeyOf, signKeyChange, signNote, toHex, Tree, utf8, verifierKey } from '@bakehouse/ledger';
import fc from 'fast-check';
import * as z from 'zod';
import { newStore } from '../../../../test/support/offline-device.js';
import { Kept } from '../store/kept.js';
import { goesOn, type SignedHead } from './goes-on.js';
import { SeenHeads, type BrokenHead } from './seen-heads.js';

const book = '0193b0a0-0000-7000-8000-000000000001';
const origin = `ledger.example/book/${book}`;
const [seed, other] = [new Uint8Array(32).fill(7), new Uint8Array(32).fill(8)];
const tree = (size: number, what = 'entry', from = 0): Tree =>
  Tree.over(Array.from({ length: size }, (_, i) => leafHash(utf8(`${i >= from ? what : 'entry'} ${i}`))));
const head = (of: Tree, seen: number | null, { key = seed, who = origin, keys = Array<string>() } = {}): SignedHead => ({
  keys,
  ...{ book, name: 'Mill Lane', verifierKey: verifierKey(who, publicKeyOf(key)) },
  note: signNote(checkpointText({ origin: who, size: of.size, root: of.root() }), who, key),
  proofHex: seen === null ? [] : seen > of.size ? null : of.consistencyProof(seen).map(toHex),
});
const sizes = fc.tuple(fc.integer({ min: 1, max: 70 }), fc.integer({ min: 0, max: 40 }));

describe('what a device saw and what it is shown now', () => {
  it('goes on wherever the one is the beginning of the other', () => {
    fc.assert(
      fc.property(sizes, ([before, more]) => {
        expect(goesOn(head(tree(before), null), head(tree(before + more), before))).toEqual({ ok: true });
      }),
      { numRuns: 60 },
    );
  });

  it('does not go on wherever an entry that was seen is another, whatever proof is shown', () => {
    fc.assert(
      fc.property(sizes, fc.nat(), ([before, more], at) => {
        const now = tree(before + more, 'written anew', at % before);
        expect(goesOn(head(tree(before), null), head(now, before))).toEqual({ ok: false, why: 'forked' });
      }),
      { numRuns: 60 },
    );
  });

  it('is named by what is wrong', () => {
    const seen = head(tree(9), null);
    const now = head(tree(20), 9);
    expect(goesOn(seen, head(tree(8), 9))).toEqual({ ok: false, why: 'shorter' });
    expect(goesOn(seen, head(tree(20), 9, { key: other }))).toEqual({ ok: false, why: 'another-key' });
    expect(goesOn(seen, { ...now, note: now.note.replace('\n20\n', '\n21\n') })).toEqual({ ok: false, why: 'not-signed' });
    expect(goesOn(seen, { ...now, book: book.replace('1', '2') })).toEqual({ ok: false, why: 'not-signed' });
    expect(goesOn(seen, { ...now, proofHex: null })).toEqual({ ok: false, why: 'not-proven' });
    expect(goesOn(seen, { ...now, proofHex: ['x'] })).toEqual({ ok: false, why: 'not-proven' });
    expect(goesOn(null, now)).toEqual({ ok: true });
    expect(goesOn(null, head(tree(3), null, { who: 'ledger.example/book/another' }))).toEqual({ ok: false, why: 'not-signed' });
    expect(goesOn(null, { ...now, note: 'no note' })).toEqual({ ok: false, why: 'not-signed' });
  });
});

describe('a head by another key', () => {
  const third = new Uint8Array(32).fill(9);
  const keyOf = (key: Uint8Array): string => verifierKey(origin, publicKeyOf(key));
  const change = (
    from: Uint8Array,
    to: Uint8Array,
    size: number,
    type: 'handover' | 'lost' = 'handover',
    by = type === 'lost' ? to : from,
  ) => signKeyChange({ origin, type, from: keyOf(from), to: keyOf(to), size }, by);
  const seen = head(tree(9), null);
  const now = (keys: readonly string[], key = other): SignedHead => head(tree(20), 9, { key, keys: [...keys] });
  const another = { ok: false, why: 'another-key' };

  it('goes on where the key that was seen handed over to it, over however many others', () => {
    expect(goesOn(seen, now([change(seed, other, 12)]))).toEqual({ ok: true });
    expect(goesOn(seen, now([change(seed, other, 9)]))).toEqual({ ok: true });
    expect(goesOn(seen, now([change(seed, other, 12), change(other, third, 15)], third))).toEqual({ ok: true });
    const between = head(tree(14), null, { key: other });
    const keys = [change(seed, other, 12), change(other, third, 15)];
    expect(goesOn(between, head(tree(20), 14, { key: third, keys }))).toEqual({ ok: true });
  });

  it.each([
    ['that nobody said anything of', []],
    ['that signed for itself that the one before is lost', [change(seed, other, 12, 'lost')]],
    ['that signed itself that it was handed over to', [change(seed, other, 12, 'handover', other)]],
    ['that was handed over to by a key that was not seen', [change(third, other, 12)]],
    ['of which the key that was seen said that it seals nothing that large', [change(seed, other, 8)]],
    ['that is not to seal anything that small', [change(seed, other, 21)]],
    ['with a statement that is none', ['no statement']],
  ])('%s is another key', (_what, keys) => {
    expect(goesOn(seen, now(keys))).toEqual(another);
  });

  it('is not taken by a device that had already seen the key after', () => {
    expect(goesOn(head(tree(14), null, { key: other }), head(tree(20), 14))).toEqual(another);
  });

  it('that was lost before what was seen is the key that was seen', () => {
    const lost = [change(third, seed, 2, 'lost'), change(seed, other, 12)];
    expect(goesOn(seen, now(lost))).toEqual({ ok: true });
  });

  it('is remembered, and the one before is not taken again', async () => {
    const kept = new Kept(await newStore()());
    let shown = [head(tree(9), null)];
    const ports = {
      kept,
      clock: { now: () => new Date('2026-11-25T03:00:00Z') },
      heads: () => Promise.resolve(shown),
      tell: () => Promise.resolve(true),
    };
    const device = new SeenHeads(ports, [book]);
    expect(await device.look()).toEqual([]);
    shown = [now([change(seed, other, 12)])];
    expect(await device.look()).toEqual([]);
    shown = [head(tree(25), 20)];
    expect(await device.look()).toMatchObject([{ why: 'another-key' }]);
    shown = [head(tree(25), 20, { key: other, keys: [change(seed, other, 12)] })];
    expect(await device.look()).toEqual([]);
  });
});

/** A device at a service that shows what the test says. */
async function device(of: { now: Tree | null; hears: boolean }) {
  const told: BrokenHead[] = [];
  const clock = { now: () => new Date('2026-11-25T03:00:00Z') };
  const kept = new Kept(await newStore()());
  const heads = (asked: ReadonlyMap<string, number>) => Promise.resolve(of.now ? [head(of.now, asked.get(book) ?? 0)] : undefined);
  const tell = (one: BrokenHead) => {
    if (of.hears) told.push(one);
    return Promise.resolve(of.hears);
  };
  return { told, kept, open: () => new SeenHeads({ kept, clock, heads, tell }, [book]), with: { kept, clock, tell } };
}

describe('a device that remembers', () => {
  it('knows after a restart and without a network what broke, and tells the house until it heard', async () => {
    const of: { now: Tree | null; hears: boolean } = { now: tree(9), hears: false };
    const d = await device(of);
    expect(await d.open().look()).toEqual([]);
    of.now = tree(12, 'written anew', 3);
    expect(await d.open().look()).toMatchObject([{ why: 'forked', told: false }]);
    of.now = null;
    expect(await d.open().look()).toMatchObject([{ why: 'forked' }]);
    of.hears = true;
    await d.open().look();
    await d.open().look();
    expect(d.told).toHaveLength(1);
    of.now = tree(30, 'written anew', 3);
    expect(await d.open().look()).toMatchObject([{ why: 'forked', told: true }]); // it never takes the other history for its own
    of.now = tree(14);
    expect(await d.open().look()).toEqual([]);
    expect(d.told).toHaveLength(1);
  });

  it('passes over an answer to a question from before another page of it had seen more', async () => {
    const of = { now: tree(9), hears: true };
    const d = await device(of);
    await d.open().look();
    const slow = new SeenHeads(
      {
        ...d.with,
        heads: async () => {
          of.now = tree(20);
          await d.open().look();
          return [head(tree(11), 9)];
        },
      },
      [book],
    );
    expect(await slow.look()).toEqual([]);
    of.now = tree(19);
    expect(await d.open().look()).toMatchObject([{ why: 'shorter' }]);
  });

  it('goes on from there whatever the service is asked meanwhile', async () => {
    for (let turns = 0; turns < 12; turns += 1) {
      const of = { now: tree(9), hears: true };
      const d = await device(of);
      await d.open().look();
      of.now = tree(4);
      const [one] = await d.open().look();
      const [asks, goesOnFrom] = [d.open().look(), d.open()];
      for (let turn = 0; turn < turns; turn += 1) await d.kept.get('nothing', z.string());
      if (one) await goesOnFrom.goOnFrom(one);
      await asks;
      expect([turns, one?.why, await d.open().broken()]).toEqual([turns, 'shorter', []]);
    }
  });

  it('takes nothing of what it kept that it cannot read', async () => {
    const d = await device({ now: tree(4), hears: true });
    await d.kept.put(`head ${book}`, { seen: 'x' });
    expect(await d.open().look()).toEqual([]);
    expect(await d.open().broken()).toEqual([]);
  });
});
