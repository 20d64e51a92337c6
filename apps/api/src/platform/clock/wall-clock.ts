/** What a clock on the wall shows at an instant, and by how much it is off UTC there and then. */
export interface WallClock {
  /** `25 Nov 2026`. */
  readonly day: string;
  /** `05:12`. */
  readonly time: string;
  /** `+00:00`. */
  readonly offset: string;
  /** The wall's own figures as if they were UTC, for a spreadsheet, whose dates have no zone. */
  readonly figures: Date;
}

const formats = new Map<string, Intl.DateTimeFormat>();

/** Throws a RangeError on a zone or an instant that does not exist. */
export function wallClock(at: string, zone: string): WallClock {
  const minutes = offsetMinutes(new Date(at), zone);
  const figures = new Date(Date.parse(at) + minutes * 60_000);
  const [size, two] = [Math.abs(minutes), (n: number): string => String(n).padStart(2, '0')];
  return {
    day: dayText(figures.toISOString().slice(0, 10)),
    time: figures.toISOString().slice(11, 16),
    figures,
    offset: `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`,
  };
}

/** `25 Nov 2026 05:12 +00:00`: how every time on a paper is written. */
export function wallTime(at: string, zone: string): string {
  const { day, time, offset } = wallClock(at, zone);
  return `${day} ${time} ${offset}`;
}

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** `2026-11-25` → `25 Nov 2026`: no order of figures that could be read two ways. */
export function dayText(day: string): string {
  const [year = '', month = '', date = ''] = day.split('-');
  return `${Number(date)} ${months[Number(month) - 1] ?? month} ${year}`;
}

function offsetMinutes(at: Date, zone: string): number {
  const format = formats.get(zone) ?? new Intl.DateTimeFormat('en-GB', { timeZone: zone, timeZoneName: 'longOffset' });
  formats.set(zone, format);
  const named = format.formatToParts(at).find((p) => p.type === 'timeZoneName')?.value ?? '';
  const [, sign, hours = '0', minutes = '0'] = /^GMT([+-])(\d{2}):(\d{2})/.exec(named) ?? [];
  return (sign === '-' ? -1 : 1) * (Number(hours) * 60 + Number(minutes));
}
