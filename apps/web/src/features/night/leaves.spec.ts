import { kinds } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { leavesOf, recorded, withValue, without } from './leaves';

const examples = kinds.flatMap((k) => k.examples.map((example: unknown) => ({ kind: k, example })));

describe('what can be said anew of a record', () => {
  it('leaves the content as it was where the same is said again, for every kind', () => {
    const found = examples.flatMap(({ example }) => leavesOf(example, () => 'a name').leaves.map((leaf) => ({ example, leaf })));
    expect(found.length).toBeGreaterThan(30);
    for (const { example, leaf } of found.filter(({ leaf: l }) => l.value !== null && !(l.type === 'lots' && l.value === '')))
      expect(withValue(example, leaf.path, recorded(leaf, leaf.value ?? ''))).toEqual(example);
  });

  it('changes that one value and no other', () => {
    const sent = { customer: null, lines: [{ lots: ['a', 'b'], quantity: { figure: '24', unit: 'piece' }, how: 'counted' }] };
    const [customer, lots, quantity] = leavesOf(sent, () => 'Bap').leaves;
    if (!customer || !lots || !quantity) throw new Error('three things can be said anew');
    expect([customer.name, lots.name, quantity.name, quantity.about]).toEqual(['To whom', 'Which lot', 'How much', 'Bap']);
    expect(withValue(sent, quantity.path, recorded(quantity, '2'))).toEqual({
      ...sent,
      lines: [{ ...sent.lines[0], quantity: { figure: '2', unit: 'piece' } }],
    });
    expect(withValue(sent, lots.path, recorded(lots, 'b'))).toEqual({ ...sent, lines: [{ ...sent.lines[0], lots: ['b'] }] });
  });

  it('takes out one line where others stay, and never the last', () => {
    const two = { lines: [{ lot: 'a' }, { lot: 'b' }] };
    expect(leavesOf(two, (id) => id).removable.map((r) => without(two, r.path))).toEqual([
      { lines: [{ lot: 'b' }] },
      { lines: [{ lot: 'a' }] },
    ]);
    expect(leavesOf({ lines: [{ lot: 'a' }] }, (id) => id).removable).toEqual([]);
  });
});
