import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { signOn, type Caller } from '../support/people.js';
import { NightTable } from './_night.js';

interface Night {
  readonly what: string;
  readonly zone: string;
  /** The UTC day of both times below. */
  readonly date: string;
  /** Before the site's day starts, and after. */
  readonly early: string;
  readonly later: string;
  /** The site's days at these times. */
  readonly days: readonly [early: string, later: string];
  /** What came: its code, when, and the site's day then. */
  readonly came: readonly (readonly [code: string, at: string, day: string])[];
  readonly typed: string;
}

// The day of each site starts at 03:00 on its wall. Clock changes as the IANA time zone database has them: Auckland puts its clocks forward on
// 26 September 2026 at 14:00 UTC and back on 4 April 2026 at 14:00 UTC.
const nights: readonly Night[] = [
  {
    what: 'an ordinary night in New York',
    ...{ zone: 'America/New_York', date: '2026-11-26', early: '06:30', later: '09:30', days: ['Wed 25 Nov', 'Thu 26 Nov'] },
    came: [
      ['evening', '2026-11-26T01:00:00Z', 'Wed 25 Nov'],
      ['before-three', '2026-11-26T07:59:00Z', 'Wed 25 Nov'],
      ['after-three', '2026-11-26T08:01:00Z', 'Thu 26 Nov'],
      ['long-ago', '2026-11-25T06:00:00Z', 'Tue 24 Nov'],
    ],
    typed: 'Thu 26 Nov 04:30',
  },
  {
    what: 'the night in Auckland when the clocks go forward',
    ...{ zone: 'Pacific/Auckland', date: '2026-09-26', early: '13:30', later: '15:30', days: ['Sat 26 Sept', 'Sun 27 Sept'] },
    came: [
      ['before-three', '2026-09-26T13:59:00Z', 'Sat 26 Sept'],
      ['after-three', '2026-09-26T14:01:00Z', 'Sun 27 Sept'],
      ['yesterday', '2026-09-25T15:30:00Z', 'Sat 26 Sept'],
    ],
    typed: 'Sun 27 Sept 04:30',
  },
  {
    what: 'the night in Auckland when the clocks go back',
    ...{ zone: 'Pacific/Auckland', date: '2026-04-04', early: '14:30', later: '16:30', days: ['Sat 4 Apr', 'Sun 5 Apr'] },
    came: [
      ['second-half-past-two', '2026-04-04T14:30:00Z', 'Sat 4 Apr'],
      ['after-three', '2026-04-04T15:01:00Z', 'Sun 5 Apr'],
      ['yesterday', '2026-04-03T14:30:00Z', 'Sat 4 Apr'],
    ],
    typed: 'Sun 5 Apr 04:30',
  },
];

let n: NightTable;

async function deliver(lead: Caller, code: string, at: string): Promise<void> {
  const { house, materials } = n.night;
  const lot = { lot: uuidv7(n.clock.now()), material: materials.flour, quantity: { figure: '25', unit: 'kg' as const }, asWritten: null };
  const line = { ...lot, code, codeState: 'on-it' as const, bestBefore: null, useBy: null, temperature: null };
  const payload = { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [line] };
  const { body } = await lead.post(`/sites/${house.site}/entries`, [house.entry({ kind: 'delivery-received', payload, at })]).expect(200);
  expect(body).toMatchObject([{ as: 'recorded' }]);
}

describe.each(nights)('$what', ({ zone, date, early, later, days, came, typed }) => {
  beforeAll(async () => {
    n = await NightTable.open(early, { date, site: { zone, dayStarts: '03:00' } });
    await n.enrolAndTap('Tam Wick');
  });
  afterAll(() => n.close());

  it('before the day starts, an officer is shown yesterday: that is the day that is going on', async () => {
    await n.place('Officer');
    await n.page.getByText(`, ${days[0]}, as of `).waitFor();
    await n.place('Today');
  });

  it('says of each lot on which of the site’s days it came', async () => {
    await n.at(later);
    const lead = await signOn(n.t, n.night.house.organisation, n.night.lead.person, n.night.lead.pin); // hours later
    for (const [code, at] of came) await deliver(lead, code, at);
    await n.page.reload();
    await n.place('Send out');
    await n.tap('In stock');
    await n.main().getByText('after-three').waitFor();
    const rows = n.main().getByRole('link', { name: /: count$/ });
    for (const [code, , day] of came) {
      const text = await rows.filter({ hasText: code }).textContent();
      expect(text).toContain(`came ${day}`);
      expect(text).toContain('25 kg left');
    }
  });

  it('says it where a lot is opened, too', async () => {
    await n.place('Open lots');
    await n.tap(/White flour/);
    for (const [code, , day] of came) expect(await n.sheet().getByRole('button', { name: code }).textContent()).toContain(`came ${day}`);
    await n.sheet().getByRole('button', { name: 'after-three' }).click();
    await n.sheet().waitFor({ state: 'detached' });
  });

  it('says on which day something was typed', async () => {
    await n.page.reload();
    await n.place('Recent entries');
    await n
      .main()
      .getByRole('link', { name: /opened/i })
      .first()
      .click();
    await n.page.getByText(`typed ${typed}`).waitFor();
  });
});
