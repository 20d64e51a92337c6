/**
 * How far back it is looked for what is still in the house: a season of a freezer. What was made longer ago and never counted out or away is rare, and is
 * found by its code in the office.
 */
export const houseDays = 92;
