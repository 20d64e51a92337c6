/** An instant with the offset that a clock on the wall has in a zone: 2026-11-25T03:40:12.345+00:00. Falls back to UTC in a zone that the browser does not know. */
export function onTheWall(at: Date, zone: string): string {
  const minutes = offsetMinutes(at, zone);
  const local = new Date(at.getTime() + minutes * 60_000).toISOString().slice(0, -1);
  const [sign, size] = [minutes < 0 ? '-' : '+', Math.abs(minutes)];
  return `${local}${sign}${String(Math.floor(size / 60)).padStart(2, '0')}:${String(size % 60).padStart(2, '0')}`;
}

function offsetMinutes(at: Date, zone: string): number {
  try {
    const parts = new Intl.DateTimeFormat('en-GB', { timeZone: zone, timeZoneName: 'longOffset' }).formatToParts(at);
    const named = parts.find((p) => p.type === 'timeZoneName')?.value ?? 'GMT';
    const [, sign, hours = '0', minutes = '0'] = /^GMT([+-])(\d{2}):(\d{2})/.exec(named) ?? [];
    return (sign === '-' ? -1 : 1) * (Number(hours) * 60 + Number(minutes));
  } catch (error) {
    if (error instanceof RangeError) return 0;
    throw error;
  }
}
