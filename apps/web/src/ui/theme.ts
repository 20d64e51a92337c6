import { systemClock } from '@bakehouse/offline';

/** by-itself: night from seven in the evening to seven in the morning by the tablet's clock, when a bakehouse works by lamplight. */
export const themes = ['by-itself', 'day', 'night'] as const;
export type Theme = (typeof themes)[number];

const kept = 'theme';
const dusk = 19;
const dawn = 7;

export const chosenTheme = (): Theme => themes.find((t) => t === localStorage.getItem(kept)) ?? 'by-itself';

export function chooseTheme(theme: Theme): void {
  localStorage.setItem(kept, theme);
  showTheme();
}

/** Puts the theme that holds now on the page. */
export function showTheme(): void {
  const chosen = chosenTheme();
  const hour = systemClock.now().getHours();
  const dark = chosen === 'by-itself' ? hour >= dusk || hour < dawn : chosen === 'night';
  document.documentElement.dataset['theme'] = dark ? 'night' : 'day';
}

/** Follows the hour for as long as the page is open. */
export function followDusk(): void {
  showTheme();
  setInterval(showTheme, 60_000);
}
