import { decisionProblems } from './decision-problems.js';
import { keepingProblems } from './keeping-problems.js';

/**
 * The one table of problems: HTTP status, a short title, and a sentence that says what to do.
 * The meaning of a code never changes. The wire form is RFC 9457 problem+json.
 */
export const problems = {
  malformed: { status: 400, title: 'Not in the expected form', detail: 'Correct the named field and send it again.' },
  required: { status: 422, title: 'Required', detail: 'Fill in the named field.' },
  'unacceptable-value': { status: 422, title: 'A value cannot be accepted', detail: 'Change it to what is acceptable, then try again.' },

  // The edge, for any request
  'malformed-json': {
    status: 400,
    title: 'The body is not JSON',
    detail: 'Send one JSON value in UTF-8 with Content-Type: application/json.',
  },
  'cross-site': {
    status: 403,
    title: 'The request came from another site',
    detail: 'Open this service’s own page and try again. Another site may not act in your name.',
  },
  'not-found': { status: 404, title: 'There is nothing at this address', detail: 'Check the address; /api/docs lists them all.' },
  'method-not-allowed': { status: 405, title: 'Method not allowed at this address', detail: 'Use one of the acceptable methods.' },
  'too-slow': { status: 408, title: 'The request did not arrive whole', detail: 'Check the network, then send it again.' },
  'too-large': { status: 413, title: 'The request is too large', detail: 'Send it in smaller parts, or send a smaller photo.' },
  'address-too-long': { status: 414, title: 'The address is too long', detail: 'Request less at once.' },
  'unsupported-media-type': {
    status: 415,
    title: 'This content type is not accepted',
    detail: 'Send JSON with Content-Type: application/json.',
  },
  'too-many-requests': {
    status: 429,
    title: 'Too many attempts',
    detail: 'Wait for the number of seconds in the Retry-After header, then try again.',
  },
  internal: {
    status: 500,
    title: 'The service failed',
    detail: 'Try again. If it fails again, give the number of this request to the person who runs the service.',
  },
  unavailable: {
    status: 503,
    title: 'The service is not ready',
    detail: 'Wait a moment and try again. What you typed is saved on this device.',
  },
  'disk-full': { status: 503, title: 'The disk is full', detail: 'Free some space on it. What you typed is saved on this device.' },
  'took-too-long': { status: 503, title: 'This took too long', detail: 'Ask for less at once: fewer figures, or fewer days.' },

  // Signing on, devices, PINs
  'not-signed-on': {
    status: 401,
    title: 'Nobody is signed on',
    detail: 'Tap your name or sign on with your PIN, then try again. What you typed is saved on this device.',
  },
  'session-ended': {
    status: 401,
    title: 'You are no longer signed on',
    detail: 'Tap your name or sign on with your PIN again. What you typed is saved on this device.',
  },
  'sign-on-refused': {
    status: 401,
    title: 'The name and the PIN do not match',
    detail: 'Check the name and enter the PIN again. An administrator can give you a new PIN.',
  },
  'pin-needed': { status: 403, title: 'This needs your PIN', detail: 'Sign on with your PIN, then try again.' },
  'pin-not-own': { status: 403, title: 'This PIN was given to you', detail: 'Choose one that only you know, and go on with that.' },
  'pin-too-short': { status: 403, title: 'This needs a PIN of six digits or more', detail: 'Choose a longer PIN of your own first.' },
  'pin-too-weak': {
    status: 422,
    title: 'That PIN is too easy to guess',
    detail: 'Choose four to eight digits. Avoid sequences, repeated digits and years.',
  },
  'device-not-enrolled': {
    status: 401,
    title: 'This device is not enrolled',
    detail: 'Enrol it with a code from an administrator, or sign on with your PIN.',
  },
  'code-not-valid': {
    status: 422,
    title: 'The code is not valid',
    detail: 'A code enrols one device and expires after a few minutes. Ask an administrator for a new code and enter it exactly.',
  },
  'unknown-device': { status: 404, title: 'No such device', detail: 'Choose a device from the list of enrolled devices.' },
  'which-organisation': {
    status: 422,
    title: 'Which business is this?',
    detail: 'Several businesses use this service. Name the organisation, or enrol this device with it.',
  },
  ...keepingProblems,
  'last-administrator': {
    status: 409,
    title: 'This is the only administrator',
    detail: 'First give the administrator role to somebody else, for every site and with no end date.',
  },
  'which-site': {
    status: 422,
    title: 'Which site is this?',
    detail: 'This device does not belong to a site yet. Choose a site, or enrol the device at one.',
  },

  'unknown-calculation': { status: 404, title: 'No such calculation', detail: 'Choose one from the list at /api/v1/calculate.' },

  // Drafts
  'unknown-draft': { status: 404, title: 'No such draft', detail: 'Choose a draft from the list.' },
  'revision-needed': {
    status: 428,
    title: 'The revision is missing',
    detail: 'Send the revision that you read, as If-Match: "<revision>", so that you do not overwrite another person’s change.',
  },
  'draft-changed': {
    status: 412,
    title: 'Somebody else saved this draft in the meantime',
    detail: 'Your text is not lost: this answer has it beside theirs. Merge both, then save with the newer revision.',
  },
  'draft-not-ready': { status: 422, title: 'This draft cannot be approved yet', detail: 'Correct what is listed, then try again.' },

  // The write door, per entry
  'unknown-kind': {
    status: 422,
    title: 'This kind of record is not known',
    detail: 'Reload the page on this device to update it. What you typed is saved.',
  },
  'unknown-version': {
    status: 422,
    title: 'This version of the record is not known',
    detail: 'Update the service or the device, then send it again. What you typed is saved.',
  },
  'wrong-book': {
    status: 422,
    title: 'This record belongs in another book',
    detail: 'Send site records to the site and organisation records to the organisation.',
  },
  'id-reused': {
    status: 409,
    title: 'Another record has this id',
    detail: 'Use a new id for a new record. To change what was recorded, send a correction.',
  },
  'depends-on-refused': {
    status: 409,
    title: 'It depends on a record that was refused',
    detail: 'Correct the refused record first, then send this one again.',
  },
  'not-permitted': {
    status: 403,
    title: 'Not permitted',
    detail: 'Ask somebody who has the role to do this, or ask an administrator for the role.',
  },
  'not-all-visible': {
    status: 403,
    title: 'Part of this is at a site that you may not look at',
    detail: 'A paper of it would leave that out and look complete. Ask somebody whose role covers every site to print it.',
  },
  'signature-missing': {
    status: 403,
    title: 'This record needs a signature',
    detail: 'Enter your PIN to sign this record, then send it with the signature.',
  },
  'signature-not-valid': {
    status: 403,
    title: 'The signature is not valid',
    detail: 'A signature is valid for one record, once, for a few minutes. Sign again.',
  },
  'another-device': {
    status: 403,
    title: 'This was saved on another device',
    detail: 'Send it from the device where it was saved. What you typed is saved there.',
  },
  'in-the-future': { status: 422, title: 'The time is in the future', detail: 'Correct the time and send it again. It is kept.' },
  'correction-without-reason': {
    status: 422,
    title: 'A correction needs a reason',
    detail: 'Write in a few words why you replace the earlier record.',
  },
  'nothing-to-correct': {
    status: 404,
    title: 'No such record to correct',
    detail: 'Choose the record from the list. It must be in the same book.',
  },
  'correction-of-another-kind': {
    status: 422,
    title: 'A correction must be of the same kind',
    detail: 'Withdraw the wrong record with a reason, then record the right one.',
  },
  'decision-stands': {
    status: 409,
    title: 'A decision cannot be withdrawn',
    detail: 'Record a new decision with its reason: accept, approve, lift the hold or close.',
  },
  fault: {
    status: 500,
    title: 'This record could not be stored',
    detail: 'Nothing was stored. Try again. If it fails again, tell the person who runs the service.',
  },

  // What an entry refers to
  'unknown-person': { status: 422, title: 'No such person', detail: 'Choose a person from the list.' },
  'unknown-site': { status: 422, title: 'No such site', detail: 'Choose one of your organisation’s sites.' },
  'unknown-place': {
    status: 422,
    title: 'No such station, store or equipment',
    detail: 'Choose one from this site’s list, or ask a manager to add it first.',
  },
  'unknown-instrument': { status: 422, title: 'No such instrument', detail: 'Choose an instrument from this site’s list.' },
  'unknown-material': {
    status: 422,
    title: 'No such material',
    detail: 'Choose a material from the list, or ask a manager to accept its specification first.',
  },
  'unknown-party': {
    status: 422,
    title: 'No such supplier or customer',
    detail: 'Choose one from the list, or ask a manager to add it first.',
  },
  'unknown-lot': {
    status: 422,
    title: 'No such lot',
    detail: 'Choose a lot from the list. If there is no code on it, choose “none on it”: the service makes a lot for it.',
  },
  'unknown-formula': { status: 422, title: 'No such formula', detail: 'Choose a formula that is in force.' },
  'unknown-plan': { status: 422, title: 'No such plan', detail: 'Choose an approved plan.' },
  'unknown-point': { status: 422, title: 'No such control point in the plan', detail: 'Choose a control point of the plan in force.' },
  'unknown-delivery': { status: 422, title: 'No such delivery', detail: 'Choose a delivery from the list, or record it first.' },
  'unknown-make': { status: 422, title: 'No such mix', detail: 'Choose one from tonight’s list, or start one.' },
  'unknown-run': { status: 422, title: 'No such product run', detail: 'Choose a product run from tonight’s list.' },
  'unknown-load': { status: 422, title: 'No such load', detail: 'Choose a load from tonight’s list.' },
  'unknown-batch': { status: 422, title: 'No such batch', detail: 'Choose a batch from the list.' },
  'unknown-deviation': { status: 422, title: 'No such deviation', detail: 'Choose one from the list of open deviations.' },
  'unknown-recall': { status: 422, title: 'No such recall case', detail: 'Choose a case from the list.' },
  'unknown-subject': { status: 422, title: 'Nothing has this id', detail: 'Choose from the list what the record is about.' },
  'unknown-hold': { status: 422, title: 'No such hold', detail: 'Choose one from the list of holds.' },

  ...decisionProblems,
} as const satisfies Record<string, { status: number; title: string; detail: string }>;

export type ProblemCode = keyof typeof problems;
