import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
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

const order = async (by = manager): Promise<string> => (await by.get(`/sites/${house.site}/inspection/pack/order`).expect(202)).body.id;

async function endOf(id: string | undefined): Promise<string> {
  for (;;) {
    const { body } = await manager.get(`/papers/${id}`).expect(200);
    if (body.state !== 'waiting' && body.state !== 'being-made') return body.state;
  }
}

describe('ordered papers', () => {
  it('are accepted, more at once than wait to be drawn, and the first is there when it is done', async () => {
    const ids = await Promise.all(Array.from({ length: 36 }, () => order()));
    expect(await endOf(ids[0])).toBe('done');
    expect((await fileFrom(manager, `/papers/${ids[0]}/file`)).bytes.subarray(0, 5).toString()).toBe('%PDF-');
  });

  it('are their buyer’s alone', async () => {
    const id = await order();
    const other = await house.signedOn('Ot Her', ['manager']);
    await other.get(`/papers/${id}`).expect(404);
    await other.get(`/papers/${id}/file`).expect(404);
  });

  it('say why, where they could not be made', async () => {
    const { body } = await manager.get(`/sites/${house.site}/inspection/pack/order?from=2026-11-25&until=2026-11-01`).expect(202);
    expect(await endOf(body.id)).toBe('failed');
    expect((await manager.get(`/papers/${body.id}/file`)).body.detail).toEqual(expect.any(String));
  });
});
