import { describe, expect, it } from '@jest/globals';
import { heldIn } from './held.js';

const note = 'example.com/foo\n3\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n\n\u2014 example.com/foo AAAAAAAA';

describe('what somebody had before', () => {
  it('is whole notes, and besides them one a line', () => {
    expect(heldIn('')).toEqual([]);
    expect(heldIn(' a+b+c \n\nffff\n')).toEqual(['a+b+c', 'ffff']);
    expect(heldIn(`# For people.\n#\n# More.\na+b+c\n\n${note}\n\n# And more.\n${note}\n`)).toEqual([note, note, 'a+b+c']);
    expect(heldIn(`a+b+c\r\n\r\n${note.replaceAll('\n', ' \r\n')}\r\n${note}\nffff`)).toEqual([note, note, 'a+b+c', 'ffff']);
  });
});
