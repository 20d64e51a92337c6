import { describe, expect, it } from '@jest/globals';
import { leavenOf, waterFor } from './water-for.js';
import { formulaContent } from '../rows/formula-content.js';
import { formulaApproved } from '../formulas/formula-approved.js';
import { testId } from '../../../../test/support/try-kind.js';

const [levain, filling] = [testId(0xd5), testId(0xd6)];
const line = (name: string, kg: number, of: { flour?: boolean; madeBy?: string } = {}) => ({
  material: testId(0xc1),
  name,
  mg: kg * 1_000_000,
  flour: of.flour ?? false,
  madeBy: of.madeBy ?? null,
});
const content = formulaContent.parse({
  ...formulaApproved.examples[0].content,
  lines: [line('White flour', 10, { flour: true }), line('Water', 6), line('Salt', 0.2), line('Rye leaven', 3, { madeBy: levain })],
  doughCelsius: { min: '23', max: '25' },
  frictionCelsius: '10',
});
const typeOf = (formula: string) => (formula === levain ? ('starter' as const) : formula === filling ? ('filling' as const) : undefined);
const asked = { content, mixes: [], unit: 'degC' as const, flour: 20, room: 22 };

describe('the water for a dough with a leaven', () => {
  it('finds the leaven, and how much there is of it for one part of water', () => {
    expect(leavenOf(content, typeOf)).toEqual({ name: 'Rye leaven', perWater: 0.5 });
    expect(leavenOf({ ...content, lines: [...content.lines.slice(0, 3), line('Custard', 3, { madeBy: filling })] }, typeOf)).toBeNull();
  });

  it('makes up for what the leaven is colder than the dough, by its mass and its heat', () => {
    const has = leavenOf(content, typeOf);
    const at = (leaven: number) => {
      const answer = waterFor({ ...asked, has, leaven });
      return answer.ok ? answer.value.water : undefined;
    };
    expect(at(24)?.celsius).toBe(20); // 3 × 24 − (20 + 22 + 10): a leaven as warm as the dough changes nothing
    // a heat balance: water 8 × 0.5 × 0.72 K warmer gives what a leaven 8 K colder takes; 0.72 from memory
    expect(at(16)?.celsius).toBeCloseTo(20 + 8 * 0.5 * 0.72, 6);
    expect(at(30)?.celsius).toBeCloseTo(20 - 6 * 0.5 * 0.72, 6);
    expect(at(16)?.source).toContain('from memory');
    expect(at(16)?.explanation).toContain('2.88 for the leaven of 16');
  });

  it('gives no figure while nobody has said how warm the leaven is', () => {
    expect(waterFor({ ...asked, has: leavenOf(content, typeOf) })).toMatchObject({
      ok: true,
      value: { water: null, missing: 'Give the temperature of the leaven: Rye leaven.' },
    });
    expect(waterFor(asked)).toMatchObject({ ok: true, value: { water: { celsius: 20 } } });
  });
});
