import 'fake-indexeddb/auto';
import { createHash } from 'node:crypto';
import { describe, expect, it } from '@jest/globals';
import { Photos, type PhotoReply } from './photos.js';

let stores = 0;
const open = (): Promise<Photos> => Photos.open(`photos ${(stores += 1)}`);
const photo = (text: string) => ({ site: 'a site', mediaType: 'image/jpeg', bytes: Buffer.from(text), keptAt: '2026-11-25T06:10:00.000Z' });
const answering = (...replies: PhotoReply[]) => {
  const sent: string[] = [];
  const one = ({ bytes }: { bytes: Uint8Array }): Promise<PhotoReply> => {
    sent.push(Buffer.from(bytes).toString());
    return Promise.resolve(replies.shift() ?? 'kept');
  };
  return { sent, one };
};

describe('photos that wait to be sent', () => {
  it('are named by the SHA-256 of their bytes (Node’s own as the other implementation), the same one once', async () => {
    const photos = await open();
    const id = await photos.keep(photo('a note'));
    expect(id).toBe(createHash('sha256').update('a note').digest('hex'));
    expect(await photos.keep(photo('a note'))).toBe(id);
    expect(await photos.waiting()).toBe(1);
    expect(await photos.get(id)).toMatchObject({ id, mediaType: 'image/jpeg' });
  });

  it('are gone once they are kept, wait where the other side cannot be reached, and stay where they were refused', async () => {
    const photos = await open();
    for (const text of ['one', 'two', 'three']) await photos.keep(photo(text));
    const first = answering('kept', 'later');
    await photos.send(first.one);
    expect([first.sent.length, await photos.waiting()]).toEqual([2, 2]);
    const second = answering('refused', 'kept');
    await photos.send(second.one);
    expect([second.sent.length, await photos.waiting()]).toEqual([2, 1]);
  });

  it('are sent once by two that ask at the same time, and are still there when the device starts again', async () => {
    const photos = await open();
    await photos.keep(photo('only one'));
    expect(await (await Photos.open(`photos ${stores}`)).waiting()).toBe(1);
    const { sent, one } = answering();
    await Promise.all([photos.send(one), photos.send(one)]);
    expect(sent).toEqual(['only one']);
  });
});
