import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import sharp from 'sharp';
import request, { type Test } from 'supertest';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { enrolledTablet, House, type Caller } from '../support/people.js';

const clock = new SettableClock('2026-11-25T03:40:00Z');
const picture = (n: number): Promise<Buffer> =>
  sharp({ create: { width: 8, height: 8 + n, channels: 3, background: '#c96' } })
    .png()
    .toBuffer();
/** Some 700 KB: noise is not made smaller. */
const noise = (n: number): Promise<Buffer> =>
  sharp({ create: { width: 500, height: 480 + n, channels: 3, background: '#000', noise: { type: 'gaussian', mean: 128, sigma: 90 } } })
    .png()
    .toBuffer();

describe('photos in a day', () => {
  let t: TestApp;
  let house: House;
  let person: { person: string; pin: string };
  beforeAll(async () => {
    t = await startTestApp({
      clock,
      env: { PHOTOS_PER_DAY: '2', PHOTO_MB_PER_DAY: '1', PIN_IDLE_MINUTES: '1440', SESSION_MINUTES: '1440' },
    });
    house = await House.found(t);
    person = await house.join('Bo Baker', ['baker']);
  });
  afterAll(() => t.close());
  const put = (by: Caller, bytes: Buffer): Test =>
    request(t.server)
      .put(`/api/v1/sites/${house.site}/photos/${createHash('sha256').update(bytes).digest('hex')}`)
      .set('authorization', `Bearer ${by.token}`)
      .set('content-type', 'image/png')
      .send(bytes);

  it('are so many a device, no matter who holds it; what is kept already is answered as kept; a day later there is room', async () => {
    const bench = await enrolledTablet(house, 'Bench');
    const tam = await bench.signOn(person.person, person.pin);
    const firth = await house.join('Oona Firth', ['baker']);
    const oona = await bench.signOn(firth.person, firth.pin);
    await put(tam, await picture(1)).expect(204);
    clock.set('2026-11-25T04:40:00Z');
    await put(oona, await picture(2)).expect(204);
    const { body, headers } = await put(tam, await picture(3)).expect(429);
    expect([body.type, headers['retry-after']]).toEqual([expect.stringMatching(/too-many-photos$/), String(23 * 3600)]);
    await put(tam, await picture(1)).expect(204);
    const other = await (await enrolledTablet(house, 'Goods in')).signOn(person.person, person.pin);
    await put(other, await picture(3)).expect(204);
    clock.set('2026-11-26T03:40:01Z');
    await put(await bench.signOn(person.person, person.pin), await picture(4)).expect(204);
  });

  it('are so many bytes, and a person’s where there is no device', async () => {
    await house.again();
    const mine = await house.signedOn('No Tablet', ['baker']);
    const other = await house.signedOn('No Other', ['baker']);
    await put(mine, await noise(1)).expect(204);
    await put(mine, await noise(2)).expect(429);
    await put(mine, await picture(5)).expect(204);
    await put(other, await noise(2)).expect(204);
  });
});
