import path from 'node:path';
import { describe, expect, it } from '@jest/globals';
import { projectRoot, readConfig } from './config.js';

describe('settings from the environment', () => {
  it('has a default for everything', () => {
    expect(readConfig({})).toMatchObject({
      PORT: 3000,
      HOST: '127.0.0.1',
      DATA_DIR: path.join(projectRoot, '.data'),
      SEED_DEMO: true,
      LOG_LEVEL: 'warn',
    });
    expect(readConfig({}).DATABASE_URL).toBeUndefined();
  });

  it('takes an empty word as absent', () => {
    expect(readConfig({ PORT: '', DATABASE_URL: '' })).toEqual(readConfig({}));
  });

  it('takes a data folder from the project unless it is absolute', () => {
    expect(readConfig({ DATA_DIR: 'elsewhere' }).DATA_DIR).toBe(path.join(projectRoot, 'elsewhere'));
    expect(readConfig({ DATA_DIR: '/srv/bakehouse' }).DATA_DIR).toBe(path.resolve('/srv/bakehouse'));
  });

  it.each([
    [{ PORT: '65536' }, 'PORT'],
    [{ PORT: 'three thousand' }, 'PORT'],
    [{ DATABASE_URL: 'http://localhost/bakehouse' }, 'DATABASE_URL'],
    [{ OWNER_DATABASE_URL: 'bakehouse' }, 'OWNER_DATABASE_URL'],
    [{ SEED_DEMO: 'perhaps' }, 'SEED_DEMO'],
    [{ SESSION_MINUTES: '0' }, 'SESSION_MINUTES'],
    [{ KEEP_VIEWINGS_DAYS: '90' }, 'KEEP_VIEWINGS_DAYS'],
    [{ SEAL_KEY: 'c2hvcnQ=' }, 'SEAL_KEY'],
    [{ SEAL_KEY: 'x'.repeat(43) }, 'SEAL_KEY'],
    [{ BACKUP_TO: `AGE-SECRET-KEY-1${'Q'.repeat(58)}` }, 'BACKUP_TO'],
  ])('names what is wrong in %j', (env, name) => {
    expect(() => readConfig(env)).toThrow(new RegExp(`^These settings cannot be used: ${name} \\(`));
  });

  it('names everything that is wrong at once', () => {
    expect(() => readConfig({ PORT: 'x', SEED_DEMO: 'x' })).toThrow(/PORT.*SEED_DEMO/);
  });
});
