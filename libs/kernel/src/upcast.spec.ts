import { describe, expect, it } from '@jest/globals';
import * as z from 'zod';
import { inSteps, upcaster } from './upcast.js';

const steps = {
  1: upcaster(z.strictObject({ minutes: z.int() }), ({ minutes }) => ({ seconds: minutes * 60 })),
  2: upcaster(z.strictObject({ seconds: z.int() }), (old) => ({ ...old, place: null })),
};

describe('what an older version says in a newer one', () => {
  it('is said step by step, from where it starts', () => {
    expect(inSteps(steps, 1, 3, { minutes: 2 })).toEqual({ success: true, data: { seconds: 120, place: null } });
    expect(inSteps(steps, 2, 3, { seconds: 5 })).toEqual({ success: true, data: { seconds: 5, place: null } });
    expect(inSteps(steps, 3, 3, 'as it is')).toEqual({ success: true, data: 'as it is' });
  });

  it('is an error by its field where it was not what that version looked like, and nothing is thrown', () => {
    const found = inSteps(steps, 1, 3, { minutes: 'two' });
    expect(found.success ? [] : found.error.issues.map((i) => i.path)).toEqual([['minutes']]);
    expect(inSteps(steps, 1, 3, null).success).toBe(false);
  });

  it('cannot be said where a step is missing', () => {
    expect(() => inSteps(steps, 0, 3, {})).toThrow('no upcaster from version 0');
  });
});
