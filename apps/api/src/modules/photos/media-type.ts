export type MediaType = 'image/jpeg' | 'image/png' | 'image/webp';

/** What a photo is, by how its bytes begin and not by what is said of it; undefined where it is none that is taken. */
export function mediaTypeOf(bytes: Buffer): MediaType | undefined {
  const begins = (hex: string, at = 0): boolean => bytes.subarray(at, at + hex.length / 2).toString('hex') === hex;
  if (begins('ffd8ff')) return 'image/jpeg';
  if (begins('89504e470d0a1a0a')) return 'image/png';
  return begins('52494646') && begins('57454250', 8) ? 'image/webp' : undefined;
}

/** Nothing stands after the picture: an IEND chunk (W3C PNG, 11.2.5), an EOI marker (ITU-T T.81, B.1.1.3), or the length that the head says (RFC 9649, 2.4). */
export function endsWhereItShould(bytes: Buffer, type: MediaType): boolean {
  const ends = (hex: string): boolean => bytes.subarray(-hex.length / 2).toString('hex') === hex;
  if (type === 'image/jpeg') return ends('ffd9');
  if (type === 'image/webp') return bytes.length === bytes.readUInt32LE(4) + 8;
  return ends('0000000049454e44ae426082');
}
