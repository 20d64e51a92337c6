/** The part of the table that is about what the service keeps beside the records: photos, and what it refused. */
export const keepingProblems = {
  'not-a-photo': { status: 415, title: 'This photo format is not accepted', detail: 'Send a JPEG, PNG or WebP picture.' },
  'photo-has-details': {
    status: 422,
    title: 'This photo says where or how it was taken',
    detail: 'Remove its EXIF, XMP and IPTC data, or take the photo in this app, which sends none. Then send it again.',
  },
  'photo-too-large': { status: 422, title: 'This photo has too many pixels', detail: 'Make it smaller: at most 4000 pixels a side.' },
  'too-many-photos': {
    status: 429,
    title: 'No more photos can be taken in today',
    detail: 'The photo stays on this device, which sends it later by itself. A program waits for the seconds in the Retry-After header.',
  },
  'not-that-photo': {
    status: 422,
    title: 'The photo does not match its SHA-256',
    detail: 'Compute the SHA-256 of the bytes that you send, and send them again.',
  },
  'unknown-photo': {
    status: 404,
    title: 'No such photo',
    detail: 'It may still be on the tablet that took it. Connect that tablet, then reload.',
  },
  'too-many-set-aside': {
    status: 429,
    title: 'Refused, and not kept here: too many were refused today',
    detail:
      'It stays on this device. Find out why so many entries are refused (Goods in, Open), then send it again; a day later there is room without that. ' +
      'Where the house is full, an administrator has the old ones looked through.',
  },
} as const satisfies Record<string, { status: number; title: string; detail: string }>;
