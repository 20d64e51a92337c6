import { plainName } from '@bakehouse/records';

/** A cell that was read, or what to write instead. */
export type Read<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly says: string };
export const fine = <T>(value: T): Read<T> => ({ ok: true, value });
export const not = (says: string): Read<never> => ({ ok: false, says });

/** One of a few words, each with others that mean it; what an empty cell means. */
export function oneOf<T extends string>(text: string, words: readonly (readonly [T, ...string[]])[], empty: T): Read<T> {
  if (text === '') return fine(empty);
  const found = words.find((of) => of.some((w) => plainName(w) === plainName(text)));
  return found ? fine(found[0]) : not(`“${short(text)}” is none of these: ${words.map((of) => of[1] ?? of[0]).join(', ')}`);
}

export function yesOrNo(text: string): Read<boolean> {
  const read = oneOf(
    text,
    [
      ['yes', 'yes', 'y', 'true', '1', 'x'],
      ['no', 'no', 'n', 'false', '0', '-'],
    ],
    'no',
  );
  return read.ok ? fine(read.value === 'yes') : not(`“${short(text)}” is neither yes nor no`);
}

/** A whole number within bounds, null where nothing stands. */
export function whole(text: string, most: number, what: string): Read<number | null> {
  if (text === '') return fine(null);
  const n = Number(text);
  return /^\d{1,9}$/.test(text) && n > 0 && n <= most
    ? fine(n)
    : not(`“${short(text)}” is not a whole number of ${what} from 1 to ${most}`);
}

export function dayOf(text: string, today: string): Read<string | null> {
  if (text === '') return fine(null);
  const known = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  const exists =
    known !== null &&
    Number(known[2]) >= 1 &&
    Number(known[2]) <= 12 &&
    Number(known[3]) >= 1 &&
    Number(known[3]) <= daysIn(known[1], known[2]);
  if (!exists) return not(`“${short(text)}” is not a day: write it as ${today}`);
  return text > today ? not(`${text} has not come yet`) : fine(text);
}

const daysIn = (year = '', month = ''): number => {
  if (month === '02') return Number(year) % 4 === 0 && (Number(year) % 100 !== 0 || Number(year) % 400 === 0) ? 29 : 28;
  return ['04', '06', '09', '11'].includes(month) ? 30 : 31;
};

/** What somebody wrote, for reading it back; a slip may be a whole letter. */
export const short = (text: string): string => (text.length <= 40 ? text : `${text.slice(0, 39)}…`);

/** The parts of a cell that names several things. */
export const listed = (text: string): string[] =>
  text
    .split(/[,;/\n]|\band\b/i)
    .map((part) => part.trim())
    .filter((part) => part !== '');
