/**
 * The year that two digits mean, given the present year: the nearest one, at most 50 years ahead and 49 back.
 * GS1 General Specifications, determination of century: yy − current yy of 51…99 is the century before, of −99…−50 the one after.
 */
export function fullYear(yy: number, asOfYear: number): number {
  const century = Math.floor(asOfYear / 100) * 100;
  const difference = yy - (asOfYear % 100);
  return century + yy + (difference >= 51 ? -100 : difference <= -50 ? 100 : 0);
}

export function daysInMonth(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
}

/** Without the present year, 29 February 00 cannot be judged and is accepted; every other date can be. */
function leapEnough(yy: number, asOfYear: number | undefined): number {
  return asOfYear === undefined ? 2000 + yy : fullYear(yy, asOfYear);
}

/** Whether YYMMDD is a date; `dayMayBeZero` where 00 stands for the last day of the month. */
export function isShortDate(text: string, dayMayBeZero: boolean, asOfYear: number | undefined): boolean {
  const [, yy = '', mm = '', dd = ''] = /^(\d\d)(\d\d)(\d\d)$/.exec(text) ?? [];
  if (yy === '') return false;
  return Number(dd) <= daysInMonth(leapEnough(Number(yy), asOfYear), Number(mm)) && Number(mm) >= 1 && (dayMayBeZero || Number(dd) >= 1);
}

/** Whether YYYYMMDD is a date. */
export function isLongDate(text: string): boolean {
  const [, year = '', mm = '', dd = ''] = /^(\d{4})(\d\d)(\d\d)$/.exec(text) ?? [];
  return year !== '' && Number(dd) >= 1 && Number(dd) <= daysInMonth(Number(year), Number(mm));
}

/** YYMMDD as an ISO date, 00 as the last day of its month; null where the present year is not given, or it is not a date. */
export function isoDate(text: string, asOfYear: number | undefined): string | null {
  if (asOfYear === undefined || !isShortDate(text, true, asOfYear)) return null;
  const year = fullYear(Number(text.slice(0, 2)), asOfYear);
  const month = text.slice(2, 4);
  const day = text.slice(4) === '00' ? String(daysInMonth(year, Number(month))) : text.slice(4);
  return `${String(year).padStart(4, '0')}-${month}-${day}`;
}
