const [startOfScan, app1, app13, comment] = [0xda, 0xe1, 0xed, 0xfe];
const details: ReadonlySet<number> = new Set([app1, app13, comment]);

/**
 * A JPEG without what is said beside the picture: EXIF and XMP (APP1), IPTC (APP13), comments. Some browsers write EXIF of their own into what
 * a canvas gives, and the service takes no photo that has any. What is no JPEG, or breaks off, is given back as it is.
 */
export function withoutDetails(jpeg: Uint8Array<ArrayBuffer>): Uint8Array<ArrayBuffer> {
  const view = new DataView(jpeg.buffer, jpeg.byteOffset, jpeg.byteLength);
  if (jpeg.length < 4 || view.getUint16(0) !== 0xffd8) return jpeg;
  const kept = [jpeg.subarray(0, 2)];
  for (let at = 2; at + 4 <= jpeg.length && jpeg[at] === 0xff;) {
    const marker = view.getUint8(at + 1);
    const end = marker === startOfScan ? jpeg.length : at + 2 + view.getUint16(at + 2);
    if (!details.has(marker)) kept.push(jpeg.subarray(at, end));
    if (end >= jpeg.length) return marker === startOfScan ? joined(kept) : jpeg;
    at = end;
  }
  return jpeg;
}

function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
