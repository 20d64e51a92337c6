import * as z from 'zod';

/** A number field whose refusal says what is acceptable: what it is and its range, ends included. Refuses NaN, infinities and strings. */
export function between(what: string, min: number, max: number) {
  const error = `${what}, a number from ${min} to ${max}`;
  return z.number({ error }).min(min, { error }).max(max, { error }).meta({ description: what });
}

/** As `between`, with the lower end left out: above zero, at most `max`. */
export function positive(what: string, max: number) {
  const error = `${what}, a number above 0 and at most ${max}`;
  return z.number({ error }).positive({ error }).max(max, { error }).meta({ description: what });
}

/** An object that refuses fields it does not know, so that a misspelt optional field is never silently ignored. */
export function only<S extends z.ZodRawShape>(shape: S) {
  const known = Object.keys(shape).join(', ');
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? `only these fields, not ${issue.keys.join(', ')}: ${known}`
        : `an object with the fields ${known}`,
  });
}

export const coldest = -90;
export const hottest = 300;

/** A temperature in °C in the range that food and its process equipment can meet. */
export const celsius = (what: string) => between(`${what} in °C`, coldest, hottest);

/** A figure for a sentence: at most `places` decimals, no trailing zeros; three figures where that would show a small one as nothing. */
export function shown(figure: number, places = 3): string {
  const size = Math.abs(figure);
  return size >= 1e15 || (size > 0 && size < 10 ** -places) ? figure.toPrecision(3) : String(Number(figure.toFixed(places)));
}
