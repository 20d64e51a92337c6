import { describe, expect, it } from '@jest/globals';
import { aboutHouse, aboutService, type ServiceFacts } from './findings.js';

const now = new Date('2026-11-25T04:00:00Z');
const wellKept = {
  administrators: 2,
  leads: 1,
  sitesWithoutPlan: [],
  formulas: 3,
  tablets: 1,
  refused: 0,
  oldestWaiting: null,
  wrongPinsOfADay: 3,
  historyDiffers: 0,
  unsealed: [{ name: 'Mill Lane', since: '2026-11-24T04:00:00Z', lastSeal: '2026-11-24T03:00:00Z' }],
  notCosigned: [],
  keyLost: [],
};
const healthy: ServiceFacts = {
  freeMb: 50_000,
  leastFreeMb: 200,
  clockMs: 40,
  sealKey: 'right',
  backups: { state: 'recent', newest: '2026-11-25T01:00:00.000Z' },
  sealsFolder: { folder: '/seals', newest: '2026-11-24', today: '2026-11-25' },
  witnesses: 0,
  servedBeyondThisMachine: false,
  behindProxy: false,
};

describe('what the doctor says of a house', () => {
  it('is nothing where nothing is wrong', () => {
    expect(aboutHouse(wellKept, now)).toEqual([]);
    expect(aboutService(healthy)).toEqual([]);
  });

  it.each([
    ['wrong', { administrators: 0 }, 'Nobody with a PIN is administrator'],
    ['to-know', { administrators: 1 }, 'One person alone is administrator'],
    ['wrong', { leads: 0 }, 'Nobody with a PIN is food-safety lead'],
    ['wrong', { sitesWithoutPlan: ['Mill Lane'] }, 'Mill Lane has no HACCP plan in force'],
    ['to-know', { formulas: 0 }, 'no approved formula'],
    ['to-know', { tablets: 0 }, 'No tablet is enrolled'],
    ['to-know', { refused: 1 }, '1 entry was refused'],
    ['to-know', { refused: 4 }, '4 entries were refused'],
    ['wrong', { oldestWaiting: '2026-11-22T04:00:00Z' }, 'has waited 3 days'],
    ['wrong', { wrongPinsOfADay: 50 }, '50 wrong PINs'],
    ['wrong', { historyDiffers: 1 }, 'do not go on from those that it had seen'],
    [
      'to-know',
      { unsealed: [{ name: 'Mill Lane', since: '2026-11-10T04:00:00Z', lastSeal: '2026-11-09T04:00:00Z' }] },
      'last sealed 16 days ago',
    ],
    ['to-know', { unsealed: [{ name: 'Mill Lane', since: '2026-11-10T04:00:00Z', lastSeal: null }] }, 'was never sealed'],
    [
      'wrong',
      { notCosigned: [{ name: 'Mill Lane', witness: 'witness.example/one+00000000+x', since: '2026-11-22T04:00:00Z' }] },
      'the seal of 2026-11-22 was not cosigned by witness.example/one.',
    ],
  ])('is %s where %j', (weight, facts, words) => {
    expect(aboutHouse({ ...wellKept, ...facts }, now)).toEqual([{ weight, says: expect.stringContaining(words) }]);
  });

  it('is nothing of an entry that has waited for a day, nor of a book that was sealed since its last record', () => {
    expect(aboutHouse({ ...wellKept, oldestWaiting: '2026-11-24T03:00:00Z', unsealed: [] }, now)).toEqual([]);
  });

  it.each([
    ['wrong', { freeMb: 199 }, '199 MB left: nothing can be recorded'],
    ['to-know', { freeMb: 999 }, '999 MB left'],
    ['wrong', { clockMs: -2001 }, '2.0 s apart'],
    ['to-know', { sealKey: 'none' as const }, 'no key for seals'],
    ['wrong', { sealKey: 'not-the-last' as const }, 'no seal is made'],
    ['wrong', { sealKey: 'away' as const }, 'seal --key-lost'],
    ['wrong', { sealKey: 'signed-nothing' as const }, 'signed none of them'],
    ['to-know', { backups: { state: 'not-set-up', newest: null } as const }, 'No backups are taken'],
    ['wrong', { backups: { state: 'overdue', newest: '2026-11-20T01:00:00.000Z' } as const }, 'of 2026-11-20T01:00:00.000Z'],
    ['wrong', { backups: { state: 'none', newest: null } as const }, 'no backup in BACKUP_DIR'],
    ['to-know', { sealsFolder: null }, 'No seal leaves the house by itself'],
    ['wrong', { sealsFolder: { folder: '/seals', newest: null, today: '2026-11-25' } }, 'There is no file of seals in /seals'],
    ['wrong', { sealsFolder: { folder: '/seals', newest: '2026-11-23', today: '2026-11-25' } }, 'since that of 2026-11-23'],
    ['to-know', { servedBeyondThisMachine: true }, 'without TLS'],
  ])('of the service is %s where %j', (weight, facts, words) => {
    expect(aboutService({ ...healthy, ...facts })).toEqual([{ weight, says: expect.stringContaining(words) }]);
  });

  it('of a service behind a proxy is nothing, nor of a disk that nobody can look at', () => {
    expect(aboutService({ ...healthy, servedBeyondThisMachine: true, behindProxy: true, freeMb: null })).toEqual([]);
  });

  it('of a service whose seals go to a witness alone is nothing', () => {
    expect(aboutService({ ...healthy, sealsFolder: null, witnesses: 1 })).toEqual([]);
  });
});
