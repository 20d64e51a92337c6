/**
 * The one table of what can go wrong: HTTP status, a short title, and a sentence that says what to do.
 * Codes keep their meaning for ever; the wire form is RFC 9457 problem+json.
 */
export const problems = {
  malformed: { status: 400, title: 'Not in the expected form', detail: 'Correct the named field and send it again.' },
  'unacceptable-value': {
    status: 422,
    title: 'A value cannot be accepted',
    detail: 'Give the named field a value in the range that is stated, then try again.',
  },

  // The edge, for any request
  'malformed-json': {
    status: 400,
    title: 'The body is not JSON',
    detail: 'Send one JSON value in UTF-8, and say so with Content-Type: application/json.',
  },
  'cross-site': {
    status: 403,
    title: 'This came from another site',
    detail: 'Use the page of this service itself; another site may not act in your name.',
  },
  'not-found': { status: 404, title: 'Nothing stands at this address', detail: 'Check the address; /api/docs lists what there is.' },
  'method-not-allowed': {
    status: 405,
    title: 'That cannot be done at this address',
    detail: 'Use one of the methods that are named as acceptable.',
  },
  'too-large': { status: 413, title: 'Too much at once', detail: 'Send it in smaller parts; a photo, smaller.' },
  'address-too-long': { status: 414, title: 'The address is too long', detail: 'Ask for less at once.' },
  'unsupported-media-type': {
    status: 415,
    title: 'Not a form that is read here',
    detail: 'Send JSON, and say so with Content-Type: application/json.',
  },
  'too-many-requests': {
    status: 429,
    title: 'Too many tries',
    detail: 'Wait for the seconds that the Retry-After header names, then try again.',
  },
  internal: {
    status: 500,
    title: 'Something went wrong here',
    detail: 'Try again. If it stays so, tell whoever looks after the service, with the number of this request.',
  },
  unavailable: { status: 503, title: 'Not ready just now', detail: 'Wait a moment and try again; what was typed is kept on the device.' },

  // Signing on, devices, PINs
  'not-signed-on': {
    status: 401,
    title: 'Nobody is signed on',
    detail: 'Tap your name or sign on with your PIN, then try again. What was typed is kept on the device.',
  },
  'session-ended': {
    status: 401,
    title: 'You are no longer signed on',
    detail: 'Tap your name or sign on with your PIN again. What was typed is kept on the device.',
  },
  'sign-on-refused': {
    status: 401,
    title: 'That name and PIN do not fit',
    detail: 'Check the name and type the PIN again. Whoever looks after people here can give you a new one.',
  },
  'pin-needed': { status: 403, title: 'This needs your PIN', detail: 'Sign on with your PIN, then try again.' },
  'pin-too-weak': {
    status: 422,
    title: 'That PIN is too easy to guess',
    detail: 'Choose four to eight digits that are no run, no repeat and no year.',
  },
  'device-not-enrolled': {
    status: 401,
    title: 'This device is not enrolled here',
    detail: 'Enrol it with a code from whoever looks after the site, or sign on with your PIN.',
  },
  'code-not-valid': {
    status: 422,
    title: 'That code does not open anything',
    detail: 'A code is for one device and a few minutes: have a new one made and type it as it stands.',
  },
  'unknown-device': { status: 404, title: 'No such device here', detail: 'Choose a device from the list of those enrolled.' },
  'which-organisation': {
    status: 422,
    title: 'Which business is this?',
    detail: 'More than one keeps its records here: name the organisation, or enrol this device with it.',
  },
  'not-a-photo': { status: 415, title: 'Not a photo that is taken', detail: 'Send a JPEG, PNG or WebP picture.' },
  'not-that-photo': {
    status: 422,
    title: 'These are other bytes than were named',
    detail: 'Name the SHA-256 of exactly the bytes that are sent, and send them again.',
  },
  'unknown-photo': {
    status: 404,
    title: 'No such photo here',
    detail: 'It may still be on the tablet that took it: connect that tablet, and look again.',
  },
  'last-administrator': {
    status: 409,
    title: 'Nobody else could give roles',
    detail: 'This is the only administrator: give the role, for every site and without an end, to somebody else first.',
  },
  'which-site': {
    status: 422,
    title: 'Which shop is this?',
    detail: 'This device belongs to none of the sites yet: choose one, or enrol the device at one.',
  },

  'unknown-calculation': { status: 404, title: 'There is no such calculation', detail: 'Choose one from the list at /api/v1/calculate.' },

  // Drafts
  'unknown-draft': { status: 404, title: 'No such draft here', detail: 'Choose a draft from the list.' },
  'revision-needed': {
    status: 428,
    title: 'Which revision is this made from?',
    detail: 'Send the revision that you were shown, as If-Match: "<revision>", so that nobody’s change is written over unseen.',
  },
  'draft-changed': {
    status: 412,
    title: 'Somebody else saved this draft meanwhile',
    detail: 'Nothing of yours is lost: it stands in this answer beside theirs. Put both together, then save under the newer revision.',
  },
  'draft-not-ready': {
    status: 422,
    title: 'This draft cannot be approved yet',
    detail: 'Put right what is listed for it, then try again.',
  },

  // The write door, per entry
  'unknown-kind': {
    status: 422,
    title: 'This kind of record is not known here',
    detail: 'Reload the page on this device to bring it up to date. What was typed is kept.',
  },
  'unknown-version': {
    status: 422,
    title: 'This version of the record is not known here',
    detail: 'Bring the service or the device up to date, then send it again. What was typed is kept.',
  },
  'wrong-book': {
    status: 422,
    title: 'This record belongs in another book',
    detail: 'Send site records to the site and organisation records to the organisation.',
  },
  'id-reused': {
    status: 409,
    title: 'That id already stands for another record',
    detail: 'Make a new id for a new record; to change what was recorded, send a correction.',
  },
  'depends-on-refused': {
    status: 409,
    title: 'It builds on a record that was refused',
    detail: 'Put right the refused record first, then send this one again.',
  },
  'not-permitted': {
    status: 403,
    title: 'Not permitted',
    detail: 'Ask somebody whose role allows it to do this, or to give you the role.',
  },
  'signature-missing': {
    status: 403,
    title: 'This needs a signature',
    detail: 'Enter your PIN to sign exactly this record, then send it with the signature.',
  },
  'signature-not-valid': {
    status: 403,
    title: 'The signature does not fit',
    detail: 'A signature is for one record, once, within a few minutes: sign again.',
  },
  'another-device': {
    status: 403,
    title: 'This was saved on another device',
    detail: 'Send it from the device that it was saved on. What was typed is kept there.',
  },
  'in-the-future': { status: 422, title: 'That time has not come yet', detail: 'Correct the time, or set this device’s clock.' },
  'correction-without-reason': {
    status: 422,
    title: 'A correction needs its reason',
    detail: 'Say in a few words why the earlier record is replaced.',
  },
  'nothing-to-correct': {
    status: 404,
    title: 'There is no such record to correct',
    detail: 'Choose the record to correct from the list; it must be in the same book.',
  },
  'correction-of-another-kind': {
    status: 422,
    title: 'A correction must be of the same kind',
    detail: 'Withdraw the wrong record with a reason, then record the right one.',
  },
  'decision-stands': {
    status: 409,
    title: 'A decision is not taken back',
    detail: 'Decide again: accept, put in force, free or close it by a decision of its own, with its reason.',
  },
  fault: {
    status: 500,
    title: 'This record could not be stored',
    detail: 'Nothing of it was stored. Try again; if it stays so, tell whoever looks after the service.',
  },

  // What an entry speaks of
  'unknown-person': { status: 422, title: 'No such person here', detail: 'Choose a person from the list.' },
  'unknown-site': { status: 422, title: 'No such site here', detail: 'Choose one of your organisation’s sites.' },
  'unknown-place': {
    status: 422,
    title: 'No such station, store or equipment here',
    detail: 'Choose one from this site’s list, or have it put in use first.',
  },
  'unknown-instrument': { status: 422, title: 'No such instrument here', detail: 'Choose an instrument from this site’s list.' },
  'unknown-material': {
    status: 422,
    title: 'No such material here',
    detail: 'Choose a material from the list, or have its specification accepted first.',
  },
  'unknown-party': { status: 422, title: 'No such supplier or customer here', detail: 'Choose one from the list, or have it added first.' },
  'unknown-lot': {
    status: 422,
    title: 'No such lot here',
    detail: 'Choose a lot from the list. If it has no code, choose “none on it”: a lot is made for it.',
  },
  'unknown-formula': { status: 422, title: 'No such formula here', detail: 'Choose a formula that is baked by.' },
  'unknown-plan': { status: 422, title: 'No such plan here', detail: 'Choose a plan that was put in force.' },
  'unknown-point': { status: 422, title: 'No such control point in the plan', detail: 'Choose a control point of the plan in force.' },
  'unknown-delivery': { status: 422, title: 'No such delivery here', detail: 'Choose a delivery from the list, or record it first.' },
  'unknown-make': { status: 422, title: 'No such make here', detail: 'Choose a make from tonight’s list, or begin one.' },
  'unknown-run': { status: 422, title: 'No such product run here', detail: 'Choose a product run from tonight’s list.' },
  'unknown-load': { status: 422, title: 'No such load here', detail: 'Choose a load from tonight’s list.' },
  'unknown-batch': { status: 422, title: 'No such batch here', detail: 'Choose a batch from the list.' },
  'unknown-deviation': { status: 422, title: 'No such deviation here', detail: 'Choose one from the list of what is open.' },
  'unknown-recall': { status: 422, title: 'No such recall case here', detail: 'Choose a case from the list.' },
  'unknown-subject': { status: 422, title: 'Nothing by that id here', detail: 'Choose what the record is about from the list.' },
  'unknown-hold': { status: 422, title: 'No such hold here', detail: 'Choose a hold from the list of what is held.' },

  // Decisions judged against how things stand
  'not-releasable': {
    status: 409,
    title: 'This batch cannot leave by rule',
    detail: 'Answer what is open on it, or have somebody who may do so sign an exception.',
  },
  'held-by-recall': {
    status: 409,
    title: 'A recall case holds this',
    detail: 'Close the recall case, or narrow it, before this is used or sent out.',
  },
  'already-closed': {
    status: 409,
    title: 'That was closed already',
    detail: 'Nothing more is to be done. To change how it was closed, correct that record.',
  },
  'already-lifted': { status: 409, title: 'That hold was lifted already', detail: 'Nothing more is to be done.' },
  'not-answered': {
    status: 409,
    title: 'Nobody has said yet what becomes of the food',
    detail: 'Decide what becomes of it, or correct it and take the reading again; then close.',
  },
  'already-so': {
    status: 409,
    title: 'That was done already',
    detail: 'Nothing more is to be done. If it looks otherwise here, reload the list.',
  },
  'not-the-next-number': {
    status: 409,
    title: 'Another version came first',
    detail: 'Look at what the newest version changed, put that into yours, and send it under the next number.',
  },
  'approved-is-fixed': {
    status: 409,
    title: 'An approved version is not changed',
    detail: 'Approve a new version. The old one stays as it was, for what was made by it.',
  },
} as const satisfies Record<string, { status: number; title: string; detail: string }>;

export type ProblemCode = keyof typeof problems;

/** A refusal as a value: the code, the field it concerns (dotted path), and what would have been accepted. */
export interface Problem {
  readonly problem: ProblemCode;
  readonly field?: string;
  readonly acceptable?: string;
}

export type Refused = { readonly ok: false } & Problem;
export type Outcome<T> = { readonly ok: true; readonly value: T } | Refused;

/** Builds a refusal; `field` is a dotted path from the body's root, `acceptable` a phrase that completes "Acceptable: …". */
export function refuse(problem: ProblemCode, field?: string, acceptable?: string): Refused {
  return { ok: false, problem, ...(field === undefined ? {} : { field }), ...(acceptable === undefined ? {} : { acceptable }) };
}
