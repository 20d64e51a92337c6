/** What a photo is, by how its bytes begin and not by what is said of it; undefined where it is none that is taken. */
export function mediaTypeOf(bytes: Buffer): 'image/jpeg' | 'image/png' | 'image/webp' | undefined {
  const begins = (hex: string, at = 0): boolean => bytes.subarray(at, at + hex.length / 2).toString('hex') === hex;
  if (begins('ffd8ff')) return 'image/jpeg';
  if (begins('89504e470d0a1a0a')) return 'image/png';
  return begins('52494646') && begins('57454250', 8) ? 'image/webp' : undefined;
}
