import { describe, expect, it } from '@jest/globals';
import { lotText, zoneText } from './case-paper.js';

// The site's day starts at 03:00. Auckland puts its clocks forward on 26 September 2026 at 14:00 UTC and back on 4 April 2026 at 14:00 UTC.
describe('a lot that has no code', () => {
  it.each([
    ['America/New_York', '2026-11-26T01:00:00Z', '25 Nov 2026'],
    ['America/New_York', '2026-11-26T07:59:00Z', '25 Nov 2026'],
    ['America/New_York', '2026-11-26T08:00:00Z', '26 Nov 2026'],
    ['Pacific/Auckland', '2026-09-26T13:59:00Z', '26 Sep 2026'],
    ['Pacific/Auckland', '2026-09-26T14:00:00Z', '27 Sep 2026'],
    ['Pacific/Auckland', '2026-04-04T14:59:00Z', '4 Apr 2026'],
    ['Pacific/Auckland', '2026-04-04T15:00:00Z', '5 Apr 2026'],
  ])('in %s, made at %s, is called by the site’s day, %s', (zone, at, day) => {
    const lot = { name: 'white dough', code: null, at, site: 'Mill Lane' };
    expect(lotText(lot, { clockOf: () => ({ zone, dayStarts: '03:00' }) })).toBe(`white dough of ${day}`);
  });
});

describe('the times of a paper', () => {
  const clocks: Readonly<Record<string, string>> = { Bakehouse: 'Europe/London', Stall: 'Europe/Dublin', Shop: 'Europe/London' };
  const clockOf = (site: string) => ({ zone: clocks[site] ?? 'Europe/London', dayStarts: '00:00' });
  const zones = (...sites: string[]) =>
    zoneText({ zone: 'Europe/London', clockOf, recall: { trace: { lots: sites.map((site) => ({ site })) } } });

  it('have their zone named once, and that of each site with another', () => {
    expect(zones('Bakehouse', 'Shop', 'Bakehouse')).toBe('Europe/London');
    expect(zones('Stall', 'Bakehouse', 'Stall')).toBe('Europe/London; Europe/Dublin at Stall');
  });
});
