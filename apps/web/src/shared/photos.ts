import { asking, onlyInNameOf, type Reply } from '@bakehouse/api-client';
import { Photos, systemClock, withoutDetails, type PhotoReply } from '@bakehouse/offline';
import * as z from 'zod';
import type { People } from './people';

/** The store of this device, opened when a photo is first taken or looked for. */
let opened: Promise<Photos> | undefined;
export const photosHere = (): Promise<Photos> => (opened ??= Photos.open('bakehouse-photos'));

/** Enough to read a delivery note by; a camera's own picture is ten times as large. */
const longestSide = 1600;

/** Makes a photo small enough to keep and to send, and keeps it. Gives the hash that the entry names. @throws where the browser cannot read it */
export async function takePhoto(file: Blob, site: string): Promise<string> {
  const picture = await createImageBitmap(file);
  const scale = Math.min(1, longestSide / Math.max(picture.width, picture.height));
  const canvas = new OffscreenCanvas(Math.round(picture.width * scale), Math.round(picture.height * scale));
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  const small = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.8 });
  const bytes = withoutDetails(new Uint8Array(await small.arrayBuffer()));
  return (await photosHere()).keep({ site, mediaType: 'image/jpeg', bytes, keptAt: systemClock.now().toISOString() });
}

const nothing = z.null();

/** Sends what was photographed here, as the person signed on. */
export async function sendPhotos(people: People, person: string): Promise<void> {
  const photos = await photosHere();
  if ((await photos.waiting()) === 0) return;
  const ask = asking({ as: onlyInNameOf(people, person), timeoutMs: 60_000 });
  await photos.send(async ({ id, site, mediaType, bytes }) => {
    const reply = await ask('put', '/sites/{site}/photos/{sha256}', nothing, {
      params: { path: { site, sha256: id } },
      headers: { 'content-type': mediaType },
      body: new Blob([Uint8Array.from(bytes)], { type: mediaType }),
      bodySerializer: (photo) => photo,
    });
    return photoReply(reply);
  });
}

const refusing: ReadonlySet<number> = new Set([413, 415, 422]);
const photoReply = (reply: Reply<null>): PhotoReply =>
  reply.as === 'ok' ? 'kept' : reply.status !== undefined && refusing.has(reply.status) ? 'refused' : 'later';
