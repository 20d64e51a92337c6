import { describe, expect, it } from '@jest/globals';
import { allergensText } from './contents-words';

describe('the allergens of a lot in a line', () => {
  const none = { contains: [], may: [] } as const;

  it('begins with what is sure, and says what may be after that', () => {
    expect(allergensText({ contains: ['wheat', 'milk'], may: ['rye'] }, true, 'nothing else')).toEqual({
      says: 'Contains wheat, milk',
      more: 'may contain rye; nothing else',
    });
    expect(allergensText({ contains: [], may: ['rye'] }, false, 'anything else is not known')).toEqual({
      says: 'may contain rye',
      more: 'anything else is not known',
    });
  });

  it('says that none is in it where all of it was checked, and nowhere else', () => {
    expect(allergensText(none, true, '').says).toBe('none of the list');
    expect(allergensText(none, false, '')).toEqual({ says: 'not known', more: null });
  });
});
