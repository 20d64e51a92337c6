import { canonicalInteger, collection, id, instant } from '@bakehouse/kernel';
import * as z from 'zod';

/** What an instrument measured, in order of time. */
export const ofInstrument = ['instrument', 'at'] as const;
/** What was done at a station, in order of time. */
export const atStation = ['station', 'at'] as const;
/** What was at a place, or done there, in order of time. */
export const atPlace = ['place', 'at'] as const;

/** Equipment, stations, stores and vessels of one site: everything that is somewhere and has a name. */
export const placeType = z.enum([
  'station',
  'mixer',
  'oven',
  'deck',
  'prover',
  'retarder',
  'chiller',
  'freezer',
  'fridge',
  'store',
  'counter',
  'vessel',
  'van',
]);
export const place = collection('place', z.object({ name: z.string(), type: placeType, within: id.nullable(), since: instant }), {
  by: ['within'],
});
export const placeOut = collection('place_out', z.object({ place: id, at: instant }), { by: ['place'] });
export const instrumentType = z.enum(['probe', 'scale', 'fixed-sensor', 'infrared']);
/** How an instrument is checked: in melting ice or in boiling water. */
export const checkWay = z.enum(['ice', 'boiling']);
export const instrumentUnit = z.enum(['degC', 'g']);
/** A measuring instrument; half-width is how far from the truth it may be, in thousandths of its unit. */
export const instrument = collection(
  'instrument',
  z.object({
    name: z.string(),
    type: instrumentType,
    halfWidthMilli: canonicalInteger,
    unit: instrumentUnit,
    since: instant,
  }),
  { by: [] },
);
export const instrumentOut = collection('instrument_out', z.object({ instrument: id, at: instant }), {
  by: ['instrument'],
  visibleTo: 'organisation',
});
export const instrumentCheck = collection(
  'instrument_check',
  z.object({
    instrument: id,
    at: instant,
    way: checkWay,
    milli: canonicalInteger,
    referenceMilli: canonicalInteger,
    toleranceMilli: canonicalInteger,
    passed: z.boolean(),
  }),
  // What was made at one site is used at another: whether its readings can be trusted is asked there too.
  { by: ['instrument'], along: [ofInstrument], visibleTo: 'organisation' },
);

/** Where a site is, and whom it informs when food may hurt people: the newest holds. */
export const siteDetails = collection(
  'site_details',
  z.object({
    address: z.string().nullable(),
    phone: z.string().nullable(),
    registration: z.string().nullable(),
    authority: z.string().nullable(),
    authorityPhone: z.string().nullable(),
    authorityOutOfHours: z.string().nullable(),
    at: instant,
  }),
  { by: [], visibleTo: 'organisation' },
);

export const sitesRows = { place, placeOut, instrument, instrumentOut, instrumentCheck, siteDetails } as const;
