import { Photos, systemClock, type PhotoReply, type StoredPhoto } from '@bakehouse/offline';
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
  const bytes = new Uint8Array(await small.arrayBuffer());
  return (await photosHere()).keep({ site, mediaType: 'image/jpeg', bytes, keptAt: systemClock.now().toISOString() });
}

/** Sends what was photographed here, as whoever is signed on. */
export async function sendPhotos(people: People, person: string): Promise<void> {
  const photos = await photosHere();
  if ((await photos.waiting()) === 0) return;
  const token = await people.tokenFor(person).catch(() => undefined);
  if (token === undefined) return;
  await photos.send(async (photo) => {
    const status = await put(photo, token);
    if (status === 401) people.tokenFailed(person); // the next try signs on anew
    return replyOf(status);
  });
}

const replyOf = (status: number | undefined): PhotoReply =>
  status === 204 ? 'kept' : status === 413 || status === 415 || status === 422 ? 'refused' : 'later';

/** Undefined where the service cannot be reached. */
async function put({ id, site, mediaType, bytes }: StoredPhoto, token: string | null): Promise<number | undefined> {
  try {
    const { status } = await fetch(`/api/v1/sites/${site}/photos/${id}`, {
      method: 'PUT',
      signal: AbortSignal.timeout(60_000),
      headers: { 'content-type': mediaType, ...(token === null ? {} : { authorization: `Bearer ${token}` }) }, // null: by the cookie
      body: new Blob([Uint8Array.from(bytes)], { type: mediaType }),
    });
    return status;
  } catch {
    return undefined;
  }
}
