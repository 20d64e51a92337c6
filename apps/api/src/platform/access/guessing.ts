/** How often a PIN was wrong by one count, since it was last right or long ago. */
export interface Count {
  readonly failures: number;
  readonly lastAt: number;
  readonly nextAt: number;
  readonly goodAt: number | null;
}

/**
 * One person at one place, everybody at that place, and that person at all addresses together. A place is an enrolled device, or a network outside of them.
 * What is tried at a device is not counted elsewhere, nor the other way round: `elsewhere` stays `none` there.
 */
export interface Counts {
  readonly own: Count;
  readonly place: Count;
  readonly elsewhere: Count;
}

export type Try = { readonly ok: true; readonly counts: Counts } | { readonly ok: false; readonly waitMs: number };

export const none: Count = { failures: 0, lastAt: 0, nextAt: 0, goodAt: null };

const firstMs = 5000;
const maxMs = 5 * 60_000;
export const forgottenMs = 12 * 3_600_000;
const freeForOne = 3;
const freeForAll = 10;

/** Five seconds after the last free try, twice as long after each one more, five minutes at most: slow for a guesser, no lock for anybody. */
export const delayAfter = (failures: number, free: number): number =>
  failures < free ? 0 : Math.min(maxMs, firstMs * 2 ** Math.min(failures - free, 30));

/**
 * Whether a try is allowed now. It is counted as the person's own wrong one before it is looked at, so that a hundred at once are a hundred
 * tries; `afterRight` takes it back. Who was right here before and has not been wrong since is not slowed by what others guessed, here or anywhere.
 */
export function beforeTry(counts: Counts, now: number): Try {
  const own = remembered(counts.own, now);
  const place = remembered(counts.place, now);
  const elsewhere = remembered(counts.elsewhere, now);
  const knownGood = own.goodAt !== null && own.failures === 0;
  const waitMs = Math.max(own.nextAt - now, knownGood ? 0 : Math.max(place.nextAt, elsewhere.nextAt) - now);
  if (waitMs > 0) return { ok: false, waitMs };
  return { ok: true, counts: { own: oneMore(own, now, freeForOne), place, elsewhere } };
}

/** Only what was wrong counts at the place: a shift of twenty who sign on at once from one address do not slow each other. */
export const afterWrong = ({ own, place, elsewhere }: Counts, now: number): Counts => ({
  own,
  place: oneMore(remembered(place, now), now, freeForAll),
  elsewhere: oneMore(remembered(elsewhere, now), now, freeForAll),
});

/** Failed attempts before a correct one were that person's own: they are taken off the other counts as well. */
export function afterRight({ own, place, elsewhere }: Counts, now: number): Counts {
  const wrong = Math.max(0, own.failures - 1); // but for this one, which was not
  return {
    own: { failures: 0, lastAt: now, nextAt: now, goodAt: now },
    place: lessBy(place, wrong),
    elsewhere: lessBy(elsewhere, wrong),
  };
}

/** Nobody looked at it: the service was too busy, and that is no wrong PIN. */
export const afterNothing = ({ own, ...others }: Counts): Counts => ({ own: lessBy(own, 1, freeForOne), ...others });

function lessBy(count: Count, fewer: number, free = freeForAll): Count {
  const failures = Math.max(0, count.failures - fewer);
  return { ...count, failures, nextAt: Math.min(count.nextAt, count.lastAt + delayAfter(failures, free)) };
}

/** A count as it stands now. Where the clock was put back since, there is no waiting for the time that it showed: that would be a lock. */
function remembered(count: Count, now: number): Count {
  if (now - count.lastAt >= forgottenMs) return { ...count, failures: 0, nextAt: now };
  return count.lastAt > now ? { ...count, nextAt: now } : count;
}

const oneMore = (count: Count, now: number, free: number): Count => ({
  ...count,
  failures: count.failures + 1,
  lastAt: now,
  nextAt: now + delayAfter(count.failures + 1, free),
});
