import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { heldIn, readBundle, verifyBundle, type Bundle } from '@bakehouse/ledger';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { roomReading } from '../support/payloads.js';
import { House, type Caller } from '../support/people.js';
import { fileFrom } from '../support/read-papers.js';
import { scannedFrom } from '../support/scan.js';

const clock = new SettableClock('2026-11-25T14:00:00Z');
const env = { SEAL_KEY: Buffer.alloc(32, 7).toString('base64') };
const houses: { t: TestApp; house: House; manager: Caller }[] = [];

async function founded(name: string): Promise<{ t: TestApp; house: House; manager: Caller }> {
  const t = await startTestApp({ clock, env });
  const house = await House.found(t);
  const one = { t, house, manager: await house.signedOn(name, ['manager']) };
  houses.push(one);
  return one;
}

describe('the square beside a seal on the pack', () => {
  let ours: Awaited<ReturnType<typeof founded>>;
  let scanned: string[];
  const inspection = (house: House, rest: string): string => `/sites/${house.site}/inspection${rest}?from=2026-11-25&until=2026-11-25`;
  const records = async ({ house, manager }: typeof ours, figure: string): Promise<void> => {
    const entry = house.entry({ kind: 'reading-taken', payload: roomReading(house.site, figure) });
    expect((await manager.post(`/sites/${house.site}/entries`, [entry]).expect(200)).body).toMatchObject([{ as: 'recorded' }]);
  };
  const bundleOf = async ({ house, manager }: typeof ours): Promise<Bundle> => {
    const read = readBundle(JSON.stringify((await manager.get(inspection(house, '/bundle.json')).expect(200)).body));
    if (!read) throw new Error('no bundle');
    return read;
  };
  beforeAll(async () => {
    ours = await founded('Ma Nager');
    await records(ours, '21.5');
    scanned = await scannedFrom((await fileFrom(ours.manager, inspection(ours.house, '/pack.pdf'))).bytes);
  });
  afterAll(() => Promise.all(houses.map(({ t }) => t.close())));

  it('is read by a telephone as the note that the service signed, of each book', async () => {
    const { body } = await ours.manager.get(inspection(ours.house, '')).expect(200);
    expect(scanned).toEqual(body.seals.map((s: { note: string }) => s.note));
    expect(scanned).toHaveLength(2);
  });

  it('and kept, shows of a later file that all it covers still stands', async () => {
    await records(ours, '22.5');
    const report = verifyBundle(await bundleOf(ours), heldIn(scanned.join('\n')));
    expect([report.ok, report.held.map((h) => h.finding)]).toEqual([true, ['is-a-seal-here', 'is-a-seal-here']]);
    expect(report.books[0]?.size).toBe(Number(scanned[0]?.split('\n')[1]) + 1); // the file is of a later seal
  });

  it('is no seal of another house’s file, whose service has the same key', async () => {
    const other = await founded('Ot Her');
    await records(other, '21.5');
    const report = verifyBundle(await bundleOf(other), heldIn(scanned.join('\n')));
    expect([report.ok, report.held.map((h) => h.finding)]).toEqual([false, ['not-here', 'not-here']]);
  });
});
