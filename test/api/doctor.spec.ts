import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { doctorCommand } from '../../apps/api/src/doctor.command.js';
import { readConfig } from '../../apps/api/src/platform/config/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { roomReading } from '../support/payloads.js';
import { House } from '../support/people.js';

describe('what the doctor says', () => {
  let t: TestApp;
  beforeAll(async () => {
    t = await startTestApp();
  });
  afterAll(() => t.close());

  const ask = async (): Promise<{ code: number; said: string[] }> => {
    const said: string[] = [];
    const code = await doctorCommand(t.database, { config: readConfig({}), say: (line) => said.push(line) });
    return { code, said };
  };

  it('is that there is no house, where there is none', async () => {
    const { code, said } = await ask();
    expect(said.join('\n')).toContain('There is no house yet');
    expect(code).toBe(0);
  });

  it('is what each house lacks, by its name, and no longer once it has it', async () => {
    const house = await House.found(t);
    const first = await ask();
    const text = first.said.join('\n');
    expect(first.code).toBe(1);
    expect(text).toContain('WRONG  Nobody with a PIN is food-safety lead');
    expect(text).toMatch(/WRONG {2}.* has no HACCP plan in force/);
    expect(text).toContain('note   No tablet is enrolled');
    await house.signedOn('lead', ['food-safety-lead']);
    const then = (await ask()).said.join('\n');
    expect(then).not.toContain('food-safety lead: no plan');
    expect(then).toContain('has no HACCP plan in force');
  });

  it('is how many entries were refused, and no record’s words', async () => {
    const house = await House.found(t);
    const baker = await house.signedOn('baker', ['baker']);
    const { body } = await baker.post(`/sites/${house.site}/entries`, [
      house.rawEntry({ kind: 'reading-taken', payload: { ...roomReading(house.site), value: 'secret-words' } }),
    ]);
    expect(body).toEqual([expect.objectContaining({ as: 'refused' })]);
    const { said } = await ask();
    expect(said.filter((line) => line.includes('was refused and never recorded'))).toHaveLength(1);
    expect(said.join('\n')).not.toContain('secret-words');
  });
});
