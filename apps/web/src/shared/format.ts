import { localDay, wallTime } from '@bakehouse/kernel';
import { systemClock } from '@bakehouse/offline';
import type { LeftRange } from '@bakehouse/views';

export { wallTime };
export { limitText } from '@bakehouse/records';

const figures = (most: number): Intl.NumberFormat => new Intl.NumberFormat('en-GB', { maximumFractionDigits: most });
const [inGramsText, inKilogramsText] = [figures(2), figures(5)];

/** A mass as it is shown: 2.5 g, 9,800 g, and from 10 kg up in kilograms, 41.45 kg. What is typed stays as it was typed. */
export function mass(mg: number | null): string {
  if (mg === null) return 'not known';
  return Math.abs(mg) < 10_000_000 ? `${inGramsText.format(mg / 1000)} g` : `${inKilogramsText.format(mg / 1_000_000)} kg`;
}

/** What is left, where some of it may be gone: 17 to 25 kg; at most 900 g where nobody can say how much may be. */
export function massRange(mg: number, perhapsMg: number | null): string {
  if (perhapsMg === null) return `at most ${mass(mg)}`;
  if (perhapsMg <= 0 || mg <= 0) return mass(mg);
  const [[least = '', unit], most] = [mass(Math.max(0, mg - perhapsMg)).split(' '), mass(mg)];
  return `${most.endsWith(` ${unit ?? ''}`) || least === '0' ? least : `${least} ${unit ?? ''}`} to ${most}`;
}

/** What is left of a lot, behind its name where it is offered; nothing where the records cannot say. */
export const leftByRecords = ({ leftMg, perhapsMg }: LeftRange): string =>
  leftMg === null ? '' : leftMg < 0 ? ' · more used than came, by the records' : ` · ${massRange(leftMg, perhapsMg)} left by the records`;

export const whole = (n: number): string => new Intl.NumberFormat('en-GB').format(n);

/** Milligrams as a figure in grams, as it would be typed. */
export const inGrams = (mg: number): string => String(Math.round(mg) / 1000);

/** How long from one instant to another: 4 min, 1 h 05. Never below zero. */
export function howLong(from: string, to: string): string {
  const minutes = Math.max(0, Math.floor((Date.parse(to) - Date.parse(from)) / 60_000));
  return minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')}`;
}

/** How old something is: in minutes and hours for two days, then in days. */
export function ageText(from: string, to: string): string {
  const days = Math.floor((Date.parse(to) - Date.parse(from)) / 86_400_000);
  return days < 2 ? howLong(from, to) : `${whole(days)} days`;
}

/** Minutes and seconds that are left, or that it is over: 4:07, +1:30. */
export function countdown(due: string, now: string): { readonly text: string; readonly over: boolean } {
  const seconds = Math.round((Date.parse(due) - Date.parse(now)) / 1000);
  const [over, size] = [seconds < 0, Math.abs(seconds)];
  const hours = Math.floor(size / 3600);
  const rest = `${String(hours > 0 ? Math.floor((size % 3600) / 60) : Math.floor(size / 60)).padStart(hours > 0 ? 2 : 1, '0')}:${String(size % 60).padStart(2, '0')}`;
  return { text: `${over ? '+' : ''}${hours > 0 ? `${hours}:` : ''}${rest}`, over };
}

const dayAndMonth = new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', weekday: 'short', day: 'numeric', month: 'short' });
const presentYear = (): string => String(systemClock.now().getFullYear());

/** A day as it is said: Wed 25 Nov, with its year where that is another than the present one. A date has no zone: it is written as it stands. */
export function dayText(day: string, present = presentYear()): string {
  const text = dayAndMonth.format(new Date(`${day}T12:00:00Z`));
  const [year] = day.split('-');
  return year === present ? text : `${text} ${year}`;
}

const dayOfWeek = new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', weekday: 'short' });

/** When something was, as it is said at a time of the same place: 06:50, on another day of the week before Sat 06:50, else with its date. */
export function whenText(at: string, now: string, zone: string): string {
  const [day, today] = [localDay(at, zone), localDay(now, zone)];
  if (day === today) return wallTime(at, zone);
  const days = Math.abs(Date.parse(today) - Date.parse(day)) / 86_400_000;
  return `${days < 7 ? dayOfWeek.format(new Date(`${day}T12:00:00Z`)) : dayText(day)} ${wallTime(at, zone)}`;
}
