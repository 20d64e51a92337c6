export const bakehouseName = 'Pellow & Wick Bakehouse';

/** What it is called until it is whole, so that a start that was cut off is known by the next. */
export const unfinished = `${bakehouseName} (being made)`;
