import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { readBundle, verifyBundle, type Bundle, type BundleReport } from '@bakehouse/ledger';
import { bundleCommand } from '../../apps/api/src/bundle.command.js';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { connected } from '../../apps/api/src/platform/database/index.js';
import { copyOf } from '../support/database.js';
import { rewrite, sealKey, soundHouse, type SoundHouse } from '../support/tampered-house.js';
import { writeVerifiers } from '../support/verifiers.js';

let house: SoundHouse;
let folder: string;
const at = (...names: string[]): string => path.join(folder, ...names);
beforeAll(async () => {
  house = await soundHouse();
  folder = mkdtempSync(path.join(tmpdir(), 'handed-'));
  writeVerifiers(folder);
});
afterAll(async () => {
  rmSync(folder, { recursive: true });
  await house.database.drop();
});

const clock = new SettableClock('2033-01-11T12:00:00Z');
async function run(
  words: readonly string[],
  database: { readonly serviceUrl: string } = house.database,
): Promise<{ code: number; said: string }> {
  const said: string[] = [];
  const config = { SEAL_KEY: sealKey, DATA_DIR: '/nowhere' };
  const code = await bundleCommand(database, { words, say: (line) => said.push(line), config }, clock, [
    at('verify.html'),
    at('verify.mjs'),
  ]);
  return { code, said: said.join('\n') };
}
function bundleIn(name: string): Bundle {
  const bundle = readBundle(readFileSync(at(name, 'bundle.json'), 'utf8'));
  if (!bundle) throw new Error(`${name} has no bundle`);
  return bundle;
}
const textsIn = (bundle: Bundle): string[] => bundle.books.flatMap((b) => b.entries.flatMap((e) => (e.words ?? []).map((w) => w.text)));

/** What the script that was handed over says of the bundle beside it. */
function checked(name: string, ...had: string[]): { code: number | null; report: BundleReport } {
  const words = [at(name, 'verify.mjs'), at(name, 'bundle.json'), '--json', ...had.flatMap((one) => ['--had', one])];
  const { status, stdout } = spawnSync(process.execPath, words, { encoding: 'utf8', cwd: at(name) });
  return { code: status, report: JSON.parse(stdout) };
}

describe('the command that hands records to an outsider', () => {
  it('writes every book whole, and what checks them, which accepts them', async () => {
    const { code, said } = await run(['--out', at('whole')]);
    expect([code, said]).toEqual([0, expect.stringMatching(/Mill Lane: (\d+) of \1 entries\n/)]);
    expect(readdirSync(at('whole')).sort()).toEqual(['bundle.json', 'verify.html', 'verify.mjs']);
    const bundle = bundleIn('whole');
    const site = bundle.books.find((book) => book.name === 'Mill Lane');
    const { code: ended, report } = checked('whole', site?.verifierKey ?? '', site?.earlier?.at(-1)?.checkpoint ?? '');
    expect([ended, report.ok, report.held.map((h) => h.finding)]).toEqual([0, true, ['is-a-key-here', 'is-a-seal-here']]);
    expect(report.books.map((b) => b.wholeTree)).toEqual(['fits', 'fits']);
    expect(report.books.find((b) => b.name === 'Mill Lane')?.earlier.map((e) => e.size)).toEqual([house.secondSeal, house.firstSeal]);
    expect(textsIn(bundle)).toEqual(expect.arrayContaining(['by hand', 'a smell']));
    expect(JSON.stringify(bundle)).not.toContain('Lee Dehl');
  });

  it('writes names with --words alone, and of a site its own records alone', async () => {
    await run(['--out', at('named'), '--words']);
    expect(textsIn(bundleIn('named'))).toContain('Lee Dehl');
    expect(checked('named').report.ok).toBe(true);
    await run(['--out', at('site'), '--site', 'Mill Lane']);
    expect(bundleIn('site').books.map((b) => [b.name, b.entries.length > 0])).toEqual([
      ['Mill Lane', true],
      [expect.any(String), false],
    ]);
  });

  it('hands a withheld body over as its leaf, which is checked', async () => {
    const copy = await copyOf(new URL(house.database.ownerUrl).pathname.slice(1));
    await house.withhold(copy);
    expect((await run(['--out', at('withheld')], copy)).said).toMatch(/Mill Lane: .* of \d+ only the fingerprint/);
    const { code, report } = checked('withheld');
    expect([code, report.books.find((b) => b.name === 'Mill Lane')?.counts['in-the-tree-body-withheld']]).toEqual([0, expect.any(Number)]);
    await copy.drop();
  });

  it('cannot hide from somebody with an older seal that all was written anew and sealed again', async () => {
    const before = bundleIn('whole').books.find((book) => book.name === 'Mill Lane');
    const copy = await copyOf(new URL(house.database.ownerUrl).pathname.slice(1));
    await connected(copy.ownerUrl, async (owner) => {
      await owner.query("SET session_replication_role = 'replica'");
      await rewrite(owner, house.site, house.early, '"25"', '"26"');
      await owner.query('DELETE FROM seal');
    });
    await run(['--out', at('rewritten')], copy);
    expect(verifyBundle(bundleIn('rewritten')).ok).toBe(true); // it fits itself, with the house's own key
    const { code, report } = checked('rewritten', before?.checkpoint ?? '');
    expect([code, report.held]).toEqual([1, [{ finding: 'not-here', origin: null }]]);
    await copy.drop();
  });

  it('says what to say, and what is not there', async () => {
    expect(await run([])).toEqual({ code: 2, said: expect.stringMatching(/^Say where to put it/) });
    expect(await run(['--out', at('x'), '--site', 'Nowhere'])).toEqual({ code: 2, said: 'There is no site called "Nowhere".' });
    expect(await run(['--out', at('x'), '--house', 'Nobody'])).toEqual({ code: 2, said: 'There is no house called "Nobody".' });
  });
});
