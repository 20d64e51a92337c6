import { describe, expect, it } from '@jest/globals';
import { informedBy } from './informed.js';

describe('who was told of a recall', () => {
  it('is everybody whom a call told, once, whatever came of the others', () => {
    const calls = [
      { party: 'cafe', answer: 'not-reached' },
      { party: 'cafe', answer: 'told' },
      { party: 'cafe', answer: 'message-left' },
      { party: 'school', answer: 'message-left' },
      { party: 'kiosk', answer: 'told' },
      { party: 'kiosk', answer: 'told' },
    ] as const;
    expect([...informedBy(calls)]).toEqual(['cafe', 'kiosk']);
    expect(informedBy([]).size).toBe(0);
  });
});
