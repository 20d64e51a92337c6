import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { NightTable } from './_night.js';
import { retypeOnPad, typeOnPad } from './_page.js';

let n: NightTable;
const lots: Record<string, string> = {};
beforeAll(async () => {
  n = await NightTable.open('01:00', { offLine: true });
  await n.enrolAndTap('Tam Wick');
  for (const code of ['Q4470', 'R4471']) await deliver(code);
  await n.page.getByRole('button', { name: /^as of/ }).click();
});
afterAll(() => n?.close());

/** A sack of flour that came in earlier, by the office. */
async function deliver(code: string): Promise<void> {
  const { house, lead, materials } = n.night;
  const lot = uuidv7(n.clock.now());
  const line = {
    lot,
    material: materials.flour,
    code,
    codeState: 'on-it' as const,
    quantity: { figure: '25', unit: 'kg' as const },
    asWritten: '25 kg',
    bestBefore: null,
    useBy: null,
    temperature: null,
  };
  const entry = house.entry({
    kind: 'delivery-received',
    payload: { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [line] },
  });
  await lead
    .post(`/sites/${house.site}/entries`, [entry])
    .expect(200)
    .expect(({ body }) => {
      expect(body).toMatchObject([{ as: 'recorded' }]);
    });
  lots[code] = lot;
}

const rows = async (): Promise<Record<string, Record<string, unknown>[]>> => {
  await n.night.house.again(); // hours have passed since they signed on
  return (await n.night.house.administrator.get(`/sites/${n.night.house.site}/night?day=2026-11-25`).expect(200)).body.rows;
};
const allSent = (): Promise<void> => n.page.getByText('all sent').waitFor();

async function begin(amount: string | null): Promise<void> {
  await n.place('Start');
  await n.tap(/White dough/);
  if (amount !== null) {
    await n.page.getByText('other amount').click();
    await retypeOnPad(n.page, amount);
  }
  await n.tap(/^Begin/);
  await n.page.getByText('planned').waitFor();
  await n.tap('Weigh in');
}

describe('two sacks', () => {
  it('opens the first sack for the mixer; nobody types a lot', async () => {
    await n.place('Open lots');
    await n.tap('White flour');
    await n.sheet().waitFor();
    await n.picture('which-lot');
    await n.tap(/^Q4470/, n.sheet());
    await n.main().getByText('White flour is open').waitFor();
    await n.at('01:20');
    await begin('14259');
    expect(
      await n
        .main()
        .getByRole('row', { name: /White flour/ })
        .textContent(),
    ).toContain('Q4470');
    await n.tap(/White flour: change/);
    await retypeOnPad(n.page, '8600');
    await n.tap('Take it', n.sheet());
    await n.tap(/^Weigh in \d/);
    await n.page.getByText('Add or adjust').waitFor();
  });

  it('asks for a sign-on after a quarter of an hour without a touch; what is half typed stays, no matter who signs on', async () => {
    const amount = () => n.page.locator('.pad-line input').last().inputValue();
    const asked = () => n.sheet().getByRole('heading', { name: 'Sign on' });
    await n.wallTo('01:40');
    await n.sheet().getByRole('button', { name: 'Carry on as Tam Wick' }).click();
    await n.place('Start');
    await n.tap(/White dough/);
    await n.page.getByText('other amount').click();
    await retypeOnPad(n.page, '20725');
    await n.wallTo('01:54');
    expect(await asked().count()).toBe(0);
    await n.wallTo('01:56');
    await asked().waitFor();
    await n.picture('carry-on');
    await n.sheet().getByRole('button', { name: 'Oona Firth' }).click();
    await n.page.getByRole('button', { name: /^Oona Firth is signed on/ }).waitFor();
    expect([await amount(), await n.sheet().count()]).toEqual(['20725', 0]);
    await n.page.getByRole('button', { name: /^Oona Firth is signed on/ }).click();
    await n.tap('Tam Wick');
    await n.page.getByRole('button', { name: /^Tam Wick is signed on/ }).waitFor();
  });

  it('changes the sack in two taps, and shares the dough between them: 16.4 kg estimated, 8,600 g from the next', async () => {
    await n.at('02:30');
    await begin(null);
    await n.at('02:35');
    await n.main().getByText('16.4 kg left by the records: from which other lot?').waitFor();
    await n.tap('White flour: the rest from another lot');
    await n.tap(/^R4471/, n.sheet());
    await n.main().getByRole('row', { name: /R4471/ }).waitFor();
    const flour = await n
      .main()
      .getByRole('row', { name: /White flour/ })
      .allTextContents();
    expect(flour.map((row) => row.replace(/Not sure which|Ran out/g, '').trim())).toEqual([
      'White flourestimatedQ447016.4 kg',
      'White flourby recipeR44718,600 g',
    ]);
    await n.picture('two-sacks');
    await n.tap(/^Weigh in \d/);
    await n.page.getByText('Add or adjust').waitFor();
  });

  it('takes a half-way adjustment as a line of its own', async () => {
    await n.tap('Add or adjust');
    await n.tap('+ Water');
    await typeOnPad(n.page, '200');
    await n.tap('Take it', n.sheet());
    await n.sheet().waitFor({ state: 'detached' });
    await allSent();
    const { flow = [], make = [] } = await rows();
    const [second] = make.filter((m) => m['plannedMg'] === 41_450_000);
    const into = flow.filter((f) => f['target'] === second?.['id']);
    const from = (code: string) => into.filter((f) => f['source'] === lots[code]).map((f) => [f['mg'], f['how']]);
    expect([from('Q4470'), from('R4471')]).toEqual([[[16_400_000, 'estimated']], [[8_600_000, 'by-recipe']]]);
    expect(into.filter((f) => f['type'] === 'late-addition').map((f) => f['mg'])).toEqual([200_000]);
  });

  it('takes a change from the formula with the material that was used instead', async () => {
    await n.page.getByText('Changed from the formula', { exact: true }).click();
    await n.page.getByRole('group', { name: 'What was changed' }).getByText('Rapeseed oil').click();
    const instead = n.page.getByRole('group', { name: 'Used instead' });
    await instead.getByText('Cream').click();
    await n.picture('changed-from-the-formula');
    await n.tap('Record the change');
    await instead.getByRole('radio', { name: 'Cream', checked: false }).waitFor(); // emptied: kept, and counted by the strip
    await n.main().getByText('On record: Rapeseed oil, Cream used instead').waitFor();
    await n.picture('change-on-record');
    await allSent();
    const { oneOff = [], specification = [] } = await rows();
    const called = (name: string) => specification.find((s) => s['name'] === name)?.['material'];
    expect(oneOff.map((o) => [o['material'], o['instead']])).toEqual([[called('Rapeseed oil'), called('Cream')]]);
  });

  it('corrects a misread temperature with a reason, and shows it once', async () => {
    await n.at('02:50');
    await n.place('Today');
    await n.page.getByText('Later: 2').click();
    await n.tap(/White dough.*dough temperature/);
    await typeOnPad(n.page, '82.5');
    await n.tap(/^Record/);
    await n.page.locator('.verdict').waitFor();
    expect(await n.verdict()).toBe('too high');
    await n.place('Recent entries');
    await n.tap(/A reading was taken.*82.5/);
    await retypeOnPad(n.page, '28.5');
    await n.main().getByText('mistyped', { exact: true }).click();
    await n.page.getByLabel('In a few words, if you like').fill('figures turned round');
    await n.picture('correct');
    await n.tap(/^Record 28.5/);
    await n.heading('Recent entries on this tablet').waitFor();
    await allSent();
    const { reading = [], deviation = [] } = await rows();
    expect(reading.map((r) => [r['figure'], r['corrected']])).toEqual([['28.5', true]]);
    expect(deviation).toHaveLength(1);
  });

  it('takes back what should not be there', async () => {
    await n.tap(/A mix was started/);
    await n.tap('Take it back');
    await n.sheet().getByText('entered twice', { exact: true }).click();
    await n.picture('take-back');
    await n.tap('Take it back', n.sheet());
    await n.heading('Recent entries on this tablet').waitFor();
    await allSent();
    expect((await rows())['make']).toHaveLength(1);
  });
});

describe('an unattended delivery', () => {
  it('takes warm cream and egg without a paper, off line, and says at once that the cream is too warm', async () => {
    await n.at('06:10');
    await n.context.setOffline(true);
    await n.place('Goods in');
    await n.tap('Unattended delivery');
    await n.tap(/^Cream/);
    await typeOnPad(n.page, '4');
    await n.tap(/^Temperature/, n.sheet());
    await typeOnPad(n.page, '9.4');
    await n.picture('unattended-line');
    await n.tap('Put it on the list', n.sheet());
    await n.tap(/^Egg, liquid/);
    await typeOnPad(n.page, '3');
    await n.tap('Put it on the list', n.sheet());
    await n.picture('unattended');
    await n.tap(/^Record 2/);
    await n.main().getByText('On record').waitFor();
    expect(await n.main().getByRole('listitem').filter({ hasText: 'Cream' }).textContent()).toContain('on hold until it is decided');
    expect(await n.main().getByRole('listitem').filter({ hasText: 'Cream' }).textContent()).toContain('too high');
    await n.picture('unattended-done');
  });

  it('can be used before anybody has its code, and the server has it so when the network is back', async () => {
    await n.context.setOffline(false);
    await n.at('06:12');
    await allSent();
    const { lot = [], reading = [], deviation = [] } = await rows();
    expect(
      lot
        .filter((l) => l['delivery'] !== null && l['codeState'] === 'not-known-yet')
        .map((l) => [l['name'], l['mg']])
        .sort(),
    ).toEqual([
      ['Cream', 4_000_000],
      ['Egg, liquid', 3_000_000],
    ]);
    expect(reading.filter((r) => r['subjectType'] === 'lot').map((r) => [r['figure'], r['measured'], r['verdict']])).toEqual([
      ['9.4', 'between-packs', 'outside'],
    ]);
    expect(deviation.filter((d) => d['subjectType'] === 'lot' && d['holds'])).toHaveLength(1);
  });
});

describe('what is decided', () => {
  it('is signed with a PIN on the tablet: the lead closes the warm dough, and the record says who', async () => {
    await n.page.getByRole('button', { name: /is signed on/ }).click();
    await n.tap('Ines Pellow');
    await n.place('Today');
    await n.tap(/White dough.*dough temperature/);
    await n.page.getByText('Decide and close, signed with a PIN').click();
    await n.page.getByLabel('Review, in a few words').fill('water too warm');
    await n.tap('Sign and close');
    await typeOnPad(n.page, n.night.lead.pin);
    await n.picture('sign');
    await n.tap('Go on', n.sheet());
    await n.sheet().waitFor({ state: 'detached' }); // the tablet shows it as closed before the service has it
    await n.main().getByText('closed', { exact: true }).waitFor();
    await allSent();
    const { deviationClosed = [] } = await rows();
    expect(deviationClosed.map((c) => [c['closedBy'], c['selfReview']])).toEqual([[n.night.lead.person, false]]);
  });
});

describe('every screen of it', () => {
  it('has targets of 48 px and more, and fits both tablets without scrolling sideways', () => {
    expect([...n.awkward]).toEqual([]);
  });
});
