import { describe, expect, it } from '@jest/globals';
import sharp from 'sharp';
import { withoutDetails } from './without-details.js';

const blank = () => sharp({ create: { width: 8, height: 8, channels: 3, background: '#c96' } });
const bare = await blank().jpeg().toBuffer();
const png = await blank().png().toBuffer();

describe('a JPEG without what is said beside it', () => {
  it('has no EXIF and no XMP, and the same picture (sharp as the other implementation)', async () => {
    const full = await blank()
      .withExif({ IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 30/1 0/1' } })
      .withXmp('<x:xmpmeta xmlns:x="adobe:ns:meta/"/>')
      .jpeg()
      .toBuffer();
    const without = withoutDetails(full);
    const { exif, xmp, format } = await sharp(without).metadata();
    expect([(await sharp(full).metadata()).exif, exif, xmp, format]).toEqual([expect.anything(), undefined, undefined, 'jpeg']);
    expect(await sharp(without).raw().toBuffer()).toEqual(await sharp(full).raw().toBuffer());
  });

  it.each([
    ['one without any', bare],
    ['a PNG', png],
    ['one that breaks off', bare.subarray(0, 30)],
    ['nothing', Buffer.of()],
  ])('is as it was: %s', (_what, bytes) => {
    expect(Buffer.compare(withoutDetails(bytes), bytes)).toBe(0);
  });
});
