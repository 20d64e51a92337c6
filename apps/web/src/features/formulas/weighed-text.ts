import type { WeighedIn } from '@bakehouse/records';

/** A figure of a scale as it is read: 36,400 g; 3 lb 8.9 oz. */
export function weighedText(figure: string, unit: WeighedIn): string {
  if (unit === 'g')
    return `${new Intl.NumberFormat('en-GB', { minimumFractionDigits: figure.split('.')[1]?.length ?? 0 }).format(Number(figure))} g`;
  const places = figure.split('.')[1]?.length ?? 0;
  const pounds = Math.floor(Number(figure) / 16);
  const ounces = (Number(figure) - pounds * 16).toFixed(places);
  return `${pounds === 0 ? '' : `${new Intl.NumberFormat('en-GB').format(pounds)} lb `}${ounces} oz`;
}
