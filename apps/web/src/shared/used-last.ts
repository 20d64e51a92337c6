/** What was used last on this tablet for one purpose, to be offered first the next time. It stays on the device, and no record depends on it. */
const key = (purpose: string): string => `used last: ${purpose}`;

export const usedLast = (purpose: string): string | null => localStorage.getItem(key(purpose));

export function nowUsed(purpose: string, what: string): void {
  localStorage.setItem(key(purpose), what);
}
