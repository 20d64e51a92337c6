import { checkDigitFits } from './check-digit.js';
import { isLongDate, isShortDate } from './dates.js';

export type RuleName = 'check-digit' | 'date' | 'time' | 'company-prefix' | 'content';

/** Why a part of the data breaks a rule of the dictionary. */
export interface Broken {
  readonly rule: RuleName;
  readonly says: string;
}

type Rule = (part: string, asOfYear: number | undefined) => Broken | undefined;

const rule =
  (name: RuleName, says: string, holds: (part: string, asOfYear: number | undefined) => boolean): Rule =>
  (part, asOfYear) =>
    holds(part, asOfYear) ? undefined : { rule: name, says };

const upTo = (most: number) => (part: string) => /^\d\d$/.test(part) && Number(part) <= most;
const content = (says: string, form: RegExp) => rule('content', says, (part) => form.test(part));

/** Piece and total, two figures each. */
function pieceOfTotal(part: string): boolean {
  const [piece, total] = [Number(part.slice(0, part.length / 2)), Number(part.slice(part.length / 2))];
  return piece >= 1 && piece <= total;
}

function placeInSequence(part: string): boolean {
  const [, place, last] = /^([1-9]\d*)\/([1-9]\d*)$/.exec(part) ?? [];
  return place !== undefined && Number(place) <= Number(last);
}

/** The rules that the dictionary names and this code checks. The other rules that it names are listed in `uncheckedRules`. */
export const rules: Readonly<Record<string, Rule>> = {
  csum: rule('check-digit', 'its check digit does not fit', checkDigitFits),
  gcppos1: rule('company-prefix', 'it does not begin with the digits of a company prefix', (part) => /^\d{4}/.test(part)),
  gcppos2: rule('company-prefix', 'no digits of a company prefix from the second place on', (part) => /^.\d{4}/.test(part)),
  yymmd0: rule('date', 'it is no date YYMMDD (DD may be 00 for the last day of the month)', (part, year) => isShortDate(part, true, year)),
  yymmdd: rule('date', 'it is no date YYMMDD', (part, year) => isShortDate(part, false, year)),
  yyyymmdd: rule('date', 'it is no date YYYYMMDD', isLongDate),
  hhmi: rule('time', 'it is no time HHMM', (part) => upTo(23)(part.slice(0, 2)) && upTo(59)(part.slice(2))),
  hh: rule('time', 'it is no hour', upTo(23)),
  mi: rule('time', 'it is no minute', upTo(59)),
  ss: rule('time', 'it is no second', upTo(59)),
  zero: content('its first figure is not 0', /^0$/),
  nonzero: content('it is zero', /[1-9]/),
  nozeroprefix: content('it begins with 0', /^(?!0.|0$)/),
  hasnondigit: content('it has digits only', /\D/),
  hyphen: content('only a hyphen may stand at its end', /^-+$/),
  yesno: content('it is neither 0 nor 1', /^[01]$/),
  winding: content('it is not 0, 1 or 9', /^[019]$/),
  iso5218: content('it is not 0, 1, 2 or 9', /^[0129]$/),
  importeridx: content('it is no letter, digit, hyphen or underscore', /^[-_0-9A-Za-z]$/),
  pcenc: content('a % is not followed by two hexadecimal digits', /^(?:[^%]|%[0-9A-Fa-f]{2})*$/),
  latitude: rule('content', 'it is more than 180 degrees', (part) => Number(part) <= 1_800_000_000),
  longitude: rule('content', 'it is more than 360 degrees', (part) => Number(part) <= 3_600_000_000),
  pieceoftotal: rule('content', 'its piece number is not from 1 to its total', pieceOfTotal),
  posinseqslash: rule('content', 'it is not a place in a sequence such as 1/3', placeInSequence),
};

/** Rules that need published lists, or are about coupons, bank accounts and model numbers: nothing that a bakehouse scans on its goods. */
export const uncheckedRules = [
  'iso3166',
  'iso3166999',
  'iso3166alpha2',
  'iso4217',
  'mediatype',
  'packagetype',
  'iban',
  'csumalpha',
  'couponcode',
  'couponposoffer',
];
