import type { ProblemCode } from '@bakehouse/kernel';
import sharp, { type Metadata } from 'sharp';
import { endsWhereItShould, mediaTypeOf } from './media-type.js';

/** A photo of a tablet has 1600 at most; a picture of more takes up the memory of the device that shows it. */
const longestSide = 4000;

/**
 * What a photo is, and what speaks against keeping it. Its bytes are never changed here: an entry names it by their hash. Only what begins as
 * one of the types that are taken is read at all, and its picture only where its head says that it is small enough.
 */
export async function pictureOf(bytes: Buffer): Promise<{ readonly mediaType: string } | { readonly problem: ProblemCode }> {
  const mediaType = mediaTypeOf(bytes);
  const head =
    mediaType &&
    (await sharp(bytes)
      .metadata()
      .catch(() => undefined)); // what it cannot read is no picture
  if (mediaType === undefined || head === undefined || (head.pages ?? 1) > 1) return { problem: 'not-a-photo' };
  if (Math.max(head.width, head.height) > longestSide) return { problem: 'photo-too-large' };
  if (hasDetails(head)) return { problem: 'photo-has-details' };
  return endsWhereItShould(bytes, mediaType) && (await isWhole(bytes)) ? { mediaType } : { problem: 'not-a-photo' };
}

/** Read to its last line: one that was cut off would be found out years later, when somebody needs what it shows. */
const isWhole = (bytes: Buffer): Promise<boolean> =>
  sharp(bytes, { failOn: 'warning' })
    .raw()
    .toBuffer()
    .then(
      () => true,
      () => false,
    );

/** Where, when and with what it was taken: of a person who works here that is nobody's business, and it would be kept for years. */
const hasDetails = ({ exif, xmp, iptc, comments = [] }: Metadata): boolean =>
  [exif, xmp, iptc].some((part) => part !== undefined) || comments.length > 0;
