import { describe, expect, it } from '@jest/globals';
import * as fc from 'fast-check';
import { openAt } from './open-at.js';
import type { Row } from '../base/state.js';

const open = (lot: string, at: string, of: Partial<Row<'inUse'>> = {}): Row<'inUse'> => ({
  id: `${lot} ${at} ${of.station ?? 'm'}`,
  station: 'm',
  material: 'flour',
  lot,
  name: lot,
  specification: null,
  site: 's',
  at,
  beside: false,
  ...of,
});
const emptied = (lot: string, at: string, station = 'm'): Row<'emptied'> => ({ id: `${lot} gone ${at}`, station, lot, at, leftMg: null });

describe('what is open', () => {
  it.each<[string, Row<'inUse'>[], Row<'emptied'>[], readonly string[]]>([
    ['the last that was opened', [open('q', '1'), open('r', '2')], [], ['r']],
    ['both, where one stands beside', [open('q', '1'), open('r', '2', { beside: true })], [], ['q', 'r']],
    ['nothing once it is empty', [open('q', '1')], [emptied('q', '2')], []],
    ['what was opened again after it was emptied', [open('q', '1'), open('q', '3')], [emptied('q', '2')], ['q']],
    ['not what is opened later', [open('q', '1'), open('r', '9')], [], ['q']],
    ['still what is emptied later', [open('q', '1')], [emptied('q', '9')], ['q']],
    ['what is emptied somewhere else', [open('q', '1')], [emptied('q', '2', 'n')], ['q']],
    [
      'one for each material and station',
      [open('q', '1'), open('s', '2', { material: 'salt' }), open('r', '3', { station: 'n' })],
      [],
      ['q', 's', 'r'],
    ],
    ['nothing that is emptied in the same instant', [open('q', '1')], [emptied('q', '1')], []],
  ])('%s', (_case, opened, gone, lots) => {
    expect(openAt(opened, gone, '5').map((o) => o.lot)).toEqual(lots);
  });

  it('does not depend on the order of the rows', () => {
    const rows = [open('q', '1'), open('r', '2', { beside: true }), open('s', '3'), open('t', '4', { beside: true })];
    fc.assert(
      fc.property(
        fc.shuffledSubarray(rows, { minLength: 4 }),
        (shuffled) =>
          openAt(shuffled, [emptied('t', '5')], '5')
            .map((o) => o.lot)
            .join() === 's',
      ),
    );
  });
});
