import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import { PaperOrders } from '../../apps/api/src/papers/orders/orders.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { House, type Caller } from '../support/people.js';
import { fileFrom } from '../support/read-papers.js';

let t: TestApp;
let house: House;
let manager: Caller;
beforeAll(async () => {
  t = await startTestApp();
  house = await House.found(t);
  manager = await house.signedOn('Ma Nager', ['manager']);
});
afterAll(() => t.close());

const unfinished: (() => void)[] = [];
afterEach(() => unfinished.splice(0).forEach((finish) => finish())); // also where a test failed before it let go on
const nobody = { organisation: 'nobody’s', person: 'nobody' };
/** An order of the test’s own: once its turn comes, everything ordered before it has ended. It is made when it is let go on. */
function marker(): { readonly turn: Promise<void>; finish(): void } {
  let finish = (): void => undefined;
  const finished = new Promise<void>((resolve) => (finish = resolve));
  const turn = new Promise<void>((begun) => {
    t.app.get(PaperOrders).order(nobody, async () => {
      begun();
      await finished;
      return { bytes: Buffer.from(''), name: '' };
    });
  });
  unfinished.push(() => finish());
  return { turn, finish: () => finish() };
}

const order = async (period = '', by = manager): Promise<{ id: string; state: string; ahead: number }> =>
  (await by.get(`/sites/${house.site}/inspection/pack/order${period}`).expect(202)).body;
const show = async ({ id }: { readonly id: string }): Promise<unknown> => (await manager.get(`/papers/${id}`).expect(200)).body;
const allMade = async (): Promise<void> => {
  const last = marker();
  await last.turn;
  last.finish();
};

describe('ordered papers', () => {
  it('are accepted, more at once than wait to be drawn, say how many are before them, and are there when they are done', async () => {
    const first = marker();
    const mine = await order();
    const others = await Promise.all(Array.from({ length: 36 }, () => order()));
    expect(mine).toEqual({ id: mine.id, state: 'in-line', ahead: 1 });
    expect(others.map((o) => o.ahead).sort((a, b) => a - b)).toEqual(others.map((_, n) => n + 2));
    await manager.get(`/papers/${mine.id}/file`).expect(404);
    for (const { id } of others) await manager.delete(`/papers/${id}`).expect(204);
    first.finish();
    await allMade();
    expect(await show(mine)).toEqual({ id: mine.id, state: 'done', ahead: 0 });
    const { bytes, headers } = await fileFrom(manager, `/papers/${mine.id}/file`);
    expect([bytes.subarray(0, 5).toString(), headers['content-type']]).toEqual(['%PDF-', 'application/pdf']);
    for (const { id } of others) await manager.get(`/papers/${id}`).expect(404);
  });

  it('are their buyer’s alone', async () => {
    const first = marker();
    const { id } = await order();
    const other = await house.signedOn('Ot Her', ['manager']);
    await other.get(`/papers/${id}`).expect(404);
    await other.get(`/papers/${id}/file`).expect(404);
    await other.delete(`/papers/${id}`).expect(404);
    expect(await show({ id })).toMatchObject({ state: 'in-line' });
    await manager.delete(`/papers/${id}`).expect(204);
    first.finish();
  });

  it('say why, where they could not be made', async () => {
    const failed = await order('?from=2026-11-25&until=2026-11-01');
    await allMade();
    expect(await show(failed)).toMatchObject({ state: 'failed' });
    const { body } = await manager.get(`/papers/${failed.id}/file`).expect(422);
    expect(body.detail).toEqual(expect.stringMatching(/.{15}/));
  });
});
