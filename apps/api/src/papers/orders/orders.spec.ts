import { describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../platform/clock/index.js';
import { Metrics } from '../../platform/metrics/index.js';
import { PaperOrders, type Made } from './orders.js';

const tam = { organisation: 'house', person: 'tam' };
const ola = { organisation: 'house', person: 'ola' };
const made = { bytes: Buffer.from('paper'), name: 'paper.pdf' };

/** A paper that is made when it is let go on. */
function held(): { readonly make: () => Promise<Made>; readonly begun: Promise<void>; finish(): void } {
  let finish = (): void => undefined;
  let begin = (): void => undefined;
  const finished = new Promise<void>((resolve) => (finish = resolve));
  const begun = new Promise<void>((resolve) => (begin = resolve));
  const make = async (): Promise<Made> => {
    begin();
    await finished;
    return made;
  };
  return { make, begun, finish: () => finish() };
}
const orders = () => new PaperOrders(new SettableClock('2026-11-25T03:40:00Z'), new Metrics());

describe('orders of papers', () => {
  it('say how many are before them, are made in their order, and are there once they are done', async () => {
    const shop = orders();
    const [first, second] = [held(), held()];
    const one = shop.order(tam, first.make);
    const two = shop.order(ola, second.make);
    expect([one.state, two]).toEqual(['being-made', { id: two.id, state: 'in-line', ahead: 1 }]);
    expect(() => shop.fileOf(ola, two.id)).toThrow('not-found');
    expect(() => shop.fileOf(tam, one.id)).toThrow('not-found');
    first.finish();
    await second.begun;
    expect([shop.of(tam, one.id).state, shop.of(ola, two.id).state]).toEqual(['done', 'being-made']);
    expect(shop.fileOf(tam, one.id)).toBe(made);
    expect(() => shop.of(ola, one.id)).toThrow('not-found');
  });

  it('go on after one that could not be made, and say why it could not', async () => {
    const shop = orders();
    const next = held();
    const failed = shop.order(tam, () => Promise.reject(new Error('no paper')));
    shop.order(tam, next.make);
    await next.begun;
    expect(shop.of(tam, failed.id).state).toBe('failed');
    expect(() => shop.fileOf(tam, failed.id)).toThrow('no paper');
  });

  it('are taken back while they wait, while they are made and after', async () => {
    const shop = orders();
    const [first, second, third] = [held(), held(), held()];
    const one = shop.order(tam, first.make);
    const two = shop.order(tam, second.make);
    const three = shop.order(tam, third.make);
    expect(() => shop.cancel(ola, two.id)).toThrow('not-found');
    shop.cancel(tam, two.id);
    expect(shop.of(tam, three.id).ahead).toBe(1);
    shop.cancel(tam, one.id);
    for (const { id } of [one, two]) expect(() => shop.of(tam, id)).toThrow('not-found');
    first.finish();
    await third.begun;
    expect(() => shop.of(tam, one.id)).toThrow('not-found');
    const last = held();
    shop.order(ola, last.make);
    third.finish();
    await last.begun;
    expect(shop.of(tam, three.id).state).toBe('done');
    shop.cancel(tam, three.id);
    expect(() => shop.fileOf(tam, three.id)).toThrow('not-found');
  });

  it('that wait are not begun when the service ends', () => {
    const shop = orders();
    shop.order(tam, held().make);
    const { id } = shop.order(tam, held().make);
    shop.onModuleDestroy();
    expect(() => shop.of(tam, id)).toThrow('not-found');
  });

  it('of a recall come first, then one of each person in turn: who ordered little waits for no one who ordered much', () => {
    const shop = orders();
    const { make } = held();
    shop.order(tam, make); // is being made
    const many = Array.from({ length: 5 }, () => shop.order(tam, make));
    const one = shop.order(ola, make);
    const recall = shop.order(ola, make, true);
    const ahead = (by: typeof tam, { id }: { id: string }): number => shop.of(by, id).ahead;
    expect([ahead(ola, recall), ahead(tam, many[0] ?? one), ahead(ola, one), ahead(tam, many[1] ?? one)]).toEqual([1, 2, 3, 4]);
  });

  it('wait a hundred for one person at most, and one more is told when to come again', () => {
    const shop = orders();
    const { make } = held();
    for (let n = 0; n < 101; n += 1) shop.order(tam, make); // one is being made
    const more = (): unknown => shop.order(tam, make);
    expect(more).toThrow(expect.objectContaining({ problem: { problem: 'too-many-requests' }, headers: { 'retry-after': '60' } }));
    expect(shop.order(ola, make).ahead).toBe(2); // after the one being made and the first that waits
  });
});
