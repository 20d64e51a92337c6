import { describe, expect, it } from '@jest/globals';
import { idsFrom, systemIds } from './ids.js';

describe('ids', () => {
  it('are UUIDv7 of the instant that RFC 9562 appendix A.6 gives as its example, the rest from the source of chance', () => {
    const { entry } = idsFrom((bytes) => bytes.set(Buffer.from('c07398f0', 'hex'), 12));
    expect(entry(new Date('2022-02-22T19:22:22.000Z'))).toBe('017f22e2-79b0-7000-8000-0000c07398f0');
  });

  it('type by the instant they are given, differ within one, and salts are 16 bytes', () => {
    const at = (ms: number): string => systemIds.entry(new Date(Date.UTC(2026, 10, 25, 3) + ms));
    const ids = [0, 1, 2, 1000, 86_400_000].map(at);
    expect([...ids].sort()).toEqual(ids);
    expect(new Set(Array.from({ length: 1000 }, () => at(0))).size).toBe(1000);
    expect(systemIds.salt()).toMatch(/^[0-9a-f]{32}$/);
    expect(systemIds.salt()).not.toBe(systemIds.salt());
  });
});
