const shown = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 2 });

/** A figure for a scale or a table; its minus is a minus. */
export const figureText = (value: number): string => shown.format(value).replace('-', '\u2212');
