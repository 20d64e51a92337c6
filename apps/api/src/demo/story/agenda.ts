import type { Day } from './calendar.js';

export const isRollDay = (day: Day): boolean => [2, 4, 6].includes(day.weekday);
export const isBaguetteDay = isRollDay;
/** Two trays of custard are made, and one cools too slowly, six days before the last. */
export const isCustardDay = (day: Day): boolean => isRollDay(day) || day.ago === 6;
export const isTartDay = (day: Day, agenda: Agenda): boolean =>
  [1, 3, 5].includes(day.weekday) || day.ago === 1 || day.ago === agenda.uncleaned;

/** On which day before the last one each planted problem happens, where the day of the week matters. */
export interface Agenda {
  /** A school day: treacle tarts are mixed in a bowl that almonds were in. */
  readonly uncleaned: number;
  /** A night without baguettes: the flour runs out in the white dough. */
  readonly split: number;
  readonly display: number;
  readonly washToppedUp: number;
  /** The almond week: the day of the stall, and the one whose tartlets are frozen. */
  readonly stall: number;
  readonly frozen: number;
}

export function agendaFor(last: Day): Agenda {
  const first = (agos: readonly number[], fits: (day: Day) => boolean): number => agos.find((ago) => fits(last.plus(-ago))) ?? agos[0] ?? 0;
  const stall = first([0, 1, 2, 3, 4, 5, 6], (day) => day.isSaturday);
  return {
    uncleaned: first([2, 4], (day) => day.isSchoolDay),
    split: first([3, 4], (day) => !isBaguetteDay(day)),
    display: first([11, 12, 13], isRollDay),
    washToppedUp: first([16, 17, 18], isRollDay),
    stall,
    frozen: stall === 0 ? 1 : 0,
  };
}

/**
 * Where 78 tartlets go on a day: 9 to each café, 42 to the counter; the stall, the freezer and the food bank have a day each in the last week.
 * Over seven days: 212 counter, 180 cafés, 60 stall, 6 samples, 16 donated, and 72 in the freezer.
 */
export function tartletsOn(day: Day, agenda: Agenda): { each: number; counter: number; stall: number; sample: number; donated: number } {
  const usual = { each: 9, counter: 42, stall: 0, sample: 0, donated: 0 };
  if (day.ago > 6) return day.isSaturday ? { ...usual, each: 0, counter: 18, stall: 60 } : usual;
  // The last morning ends before its counter has sold anything: where it is the stall's, the eighteen others of that day lie in the freezer.
  const [ofStall, ofFrozen] = agenda.stall === 0 ? [0, 18] : [18, 0];
  if (day.ago === agenda.stall) return { ...usual, each: 0, counter: ofStall, stall: 60 };
  if (day.ago === agenda.frozen) return { ...usual, each: 0, counter: ofFrozen, sample: 6 };
  const donates = [6, 5, 4].find((ago) => ago !== agenda.stall && ago !== agenda.frozen);
  return day.ago === donates ? { ...usual, counter: 26, donated: 16 } : usual;
}
