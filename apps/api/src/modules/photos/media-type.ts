export type MediaType = 'image/jpeg' | 'image/png' | 'image/webp';

/** What a photo is, by how its bytes begin and not by what is said of it; undefined where it is none that is taken. */
export function mediaTypeOf(bytes: Buffer): MediaType | undefined {
  const begins = (hex: string, at = 0): boolean => bytes.subarray(at, at + hex.length / 2).toString('hex') === hex;
  if (begins('ffd8ff')) return 'image/jpeg';
  if (begins('89504e470d0a1a0a')) return 'image/png';
  return begins('52494646') && begins('57454250', 8) ? 'image/webp' : undefined;
}

/** Nothing stands after the picture, also where what stands there ends as a picture does: by the length that the head says (WebP, RFC 9649, 2.4), or gone through. */
export function endsWhereItShould(bytes: Buffer, type: MediaType): boolean {
  if (type === 'image/webp') return bytes.length === bytes.readUInt32LE(4) + 8;
  return (type === 'image/png' ? endOfPng(bytes) : endOfJpeg(bytes)) === bytes.length;
}

/** Chunk by chunk to the first IEND (W3C PNG, 5.3 and 11.2.5): a length, a name, so many bytes, a checksum. */
function endOfPng(bytes: Buffer): number | undefined {
  for (let at = 8; at + 12 <= bytes.length;) {
    const next = at + 12 + bytes.readUInt32BE(at);
    if (bytes.toString('latin1', at + 4, at + 8) === 'IEND') return next;
    at = next;
  }
  return undefined;
}

/** Marker by marker to the first EOI (ITU-T T.81, B.1.1): segments say their length, and in coded data no marker but RST stands. */
function endOfJpeg(bytes: Buffer): number | undefined {
  for (let at = 2; at + 2 <= bytes.length;) {
    const marker = bytes[at] === 0xff ? (bytes[at + 1] ?? 0) : 0;
    if (marker === 0xd9) return at + 2;
    if (marker === 0xff) at += 1;
    else if (marker === 0x00 || marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7)) at += marker === 0x00 ? 1 : 2;
    else if (at + 4 <= bytes.length) at += 2 + bytes.readUInt16BE(at + 2);
    else return undefined;
  }
  return undefined;
}
