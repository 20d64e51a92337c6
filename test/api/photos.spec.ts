import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import sharp from 'sharp';
import request from 'supertest';
import { startTestApp, type TestApp } from '../support/app.js';
import { House, type Caller } from '../support/people.js';

const sha256 = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');
const blank = (width = 8, height = 8) => sharp({ create: { width, height, channels: 3, background: '#c96' } });
const pictures = {
  'image/jpeg': await blank().jpeg().toBuffer(),
  'image/png': await blank().png().toBuffer(),
  'image/webp': await blank().webp().toBuffer(),
};
const jpeg = pictures['image/jpeg'];
const place = { IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 30/1 0/1' } };
const withExif = await blank().withExif(place).jpeg().toBuffer();
const withXmp = await blank().withXmp('<x:xmpmeta xmlns:x="adobe:ns:meta/"/>').webp().toBuffer();
const pngWithExif = await blank().withExif(place).png().toBuffer();
const cut = (bytes: Buffer, end: string) => Buffer.concat([bytes.subarray(0, bytes.length - 60), Buffer.from(end, 'hex')]);
const noise = await sharp({
  create: { width: 64, height: 64, channels: 3, background: '#c96', noise: { type: 'gaussian', mean: 128, sigma: 30 } },
})
  .png()
  .toBuffer();
const noiseAsJpeg = await sharp(noise).jpeg().toBuffer();
const more = Buffer.from('what is not the picture');
const large = await blank(4001, 1).png().toBuffer();
const largest = await blank(4000, 1).png().toBuffer();

describe('photos', () => {
  let t: TestApp;
  let house: House;
  let baker: Caller;
  beforeAll(async () => {
    t = await startTestApp();
    house = await House.found(t);
    baker = await house.signedOn('Bo Baker', ['baker']);
  });
  afterAll(() => t.close());
  const path = (hash: string, site = house.site): string => `/api/v1/sites/${site}/photos/${hash}`;
  const put = (bytes: Buffer, of: { hash?: string; type?: string; by?: Caller; site?: string } = {}) =>
    request(t.server)
      .put(path(of.hash ?? sha256(bytes), of.site))
      .set('authorization', `Bearer ${(of.by ?? baker).token}`)
      .set('content-type', of.type ?? 'image/jpeg')
      .send(bytes);
  const show = (bytes: Buffer, by = baker) =>
    request(t.server)
      .get(path(sha256(bytes)))
      .set('authorization', `Bearer ${by.token}`);

  it.each(Object.entries(pictures))('are kept once and shown as they came: %s', async (type, bytes) => {
    await put(bytes, { type }).expect(204);
    await put(bytes, { type }).expect(204);
    const { body, headers } = await show(bytes).expect(200);
    expect([headers['content-type'], Buffer.compare(body, bytes)]).toEqual([type, 0]);
    expect(headers['cache-control']).toBe('private, max-age=31536000, immutable'); // by the hash of its bytes it never changes, and no proxy keeps it
  });

  it.each([
    ['not-that-photo', jpeg, { hash: 'a'.repeat(64) }, 422],
    ['not-a-photo', Buffer.from('<svg onload="alert(1)"/>'), {}, 415],
    ['not-a-photo', jpeg.subarray(0, 20), {}, 415],
    ['not-a-photo', cut(noise, '0000000049454e44ae426082'), { type: 'image/png' }, 415],
    ['not-a-photo', cut(noiseAsJpeg, 'ffd9'), {}, 415],
    ['not-a-photo', Buffer.concat([jpeg, more]), {}, 415],
    ['not-a-photo', Buffer.concat([pictures['image/png'], more]), { type: 'image/png' }, 415],
    ['not-a-photo', Buffer.concat([pictures['image/webp'], more]), { type: 'image/webp' }, 415],
    ['not-a-photo', Buffer.concat([pictures['image/png'], more, pictures['image/png'].subarray(-12)]), { type: 'image/png' }, 415],
    ['not-a-photo', Buffer.concat([jpeg, more, Buffer.from('ffd9', 'hex')]), {}, 415],
    ['photo-has-details', withExif, {}, 422],
    ['photo-has-details', withXmp, { type: 'image/webp' }, 422],
    ['photo-has-details', pngWithExif, { type: 'image/png' }, 422],
    ['photo-too-large', large, { type: 'image/png' }, 422],
    ['not-a-photo', Buffer.from('{}'), { type: 'application/json' }, 415],
    ['malformed', jpeg, { hash: 'nonsense' }, 400],
    ['too-large', Buffer.concat([jpeg, Buffer.alloc(4 * 1024 * 1024)]), {}, 413],
  ])('are refused as %s, with what to do', async (problem, bytes, of, status) => {
    const { body } = await put(bytes, of).expect(status);
    expect(body).toMatchObject({ type: expect.stringMatching(new RegExp(`${problem}$`)), detail: expect.stringMatching(/.{15}/) });
  });

  it('may have 4000 pixels along a side', async () => {
    await put(largest, { type: 'image/png' }).expect(204);
  });

  it('are another house’s as little as its lots are, and nobody’s who may only look to send', async () => {
    const other = await House.found(t);
    const stranger = await other.signedOn('Some One', ['baker']);
    await show(jpeg, stranger).expect(422);
    await put(jpeg, { by: stranger }).expect(422);
    const theirs = request(t.server)
      .get(path(sha256(jpeg), other.site))
      .set('authorization', `Bearer ${stranger.token}`);
    expect((await theirs.expect(404)).body.detail).toContain('still be on the tablet');
    const looks = await house.signedOn('Lo Oks', ['viewer']);
    await show(jpeg, looks).expect(200);
    await put(jpeg, { by: looks }).expect(403);
  });

  it('are each site’s own: the same note photographed for two is kept and shown at both', async () => {
    const both = await House.found(t, [
      { name: 'Mill Lane', zone: 'Europe/London' },
      { name: 'Quay', zone: 'Europe/London' },
    ]);
    const van = await both.signedOn('Va Nn', ['baker']);
    for (const site of both.created.sites) await put(jpeg, { by: van, site }).expect(204);
    for (const site of both.created.sites) await van.get(`/sites/${site}/photos/${sha256(jpeg)}`).expect(200);
  });

  it('are shown to an inspector who was given access, and to no other', async () => {
    await put(jpeg).expect(204);
    await show(jpeg, await house.signedOn('Ina Spect', ['inspector'])).expect(200);
    await show(jpeg, await house.signedOn('No Role', [])).expect(403);
  });
});
