import { describe, expect, it } from '@jest/globals';
import { personLeft } from './person-left.js';
import { roleTakenAway } from './role-taken-away.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const [ada, bo] = [testId(3), testId(4)];
const role = (id: number, person: string, of: { until?: string; site?: string; role?: 'administrator' | 'baker' } = {}) => ({
  in: 'roleGiven' as const,
  id: testId(id),
  row: { person, role: of.role ?? 'administrator', site: of.site ?? null, since: '2026-01-01T00:00:00.000Z', until: of.until ?? null },
});
const house = (...roles: ReturnType<typeof role>[]): House =>
  new House([
    ...[ada, bo].map((id) => ({ in: 'person' as const, id, row: { name: 'Somebody', joinedAt: '2026-01-01T00:00:00.000Z' } })),
    ...roles,
  ]);
const leaves = (h: House, person: string) => h.record(personLeft, { payload: { person } });
const loses = (h: House, given: number) => h.record(roleTakenAway, { payload: { given: testId(given) } });
const refused = { ok: false, problem: 'last-administrator' };

describe('the last administrator', () => {
  it('neither leaves nor loses the role; with a second one both may', () => {
    expect(leaves(house(role(0x111, ada)), ada)).toMatchObject({ ...refused, field: 'payload.person' });
    expect(loses(house(role(0x111, ada)), 0x111)).toMatchObject({ ...refused, field: 'payload.given' });
    const two = () => house(role(0x111, ada), role(0x112, bo));
    expect(leaves(two(), ada).ok).toBe(true);
    expect(loses(two(), 0x111).ok).toBe(true);
  });

  it.each([
    ['has left', (h: House) => leaves(h, bo)],
    ['lost the role', (h: House) => loses(h, 0x112)],
  ])('is the last one again when the other %s', (_what, goes) => {
    const h = house(role(0x111, ada), role(0x112, bo));
    expect(goes(h).ok).toBe(true);
    expect(leaves(h, ada)).toMatchObject(refused);
  });

  it.each([
    ['whose role ends some day', { until: '2027-01-01T00:00:00.000Z' }],
    ['of one site only', { site: testId(9) }],
    ['who has another role', { role: 'baker' as const }],
  ])('is not relieved by somebody %s', (_what, of) => {
    expect(leaves(house(role(0x111, ada), role(0x112, bo, of)), ada)).toMatchObject(refused);
  });

  it('is nobody’s affair where somebody else leaves, or where no roles are known', () => {
    expect(leaves(house(role(0x111, ada)), bo).ok).toBe(true);
    expect(leaves(house(), ada).ok).toBe(true);
  });

  it('may lose one of two givings of the role', () => {
    expect(loses(house(role(0x111, ada), role(0x113, ada)), 0x111).ok).toBe(true);
  });
});
