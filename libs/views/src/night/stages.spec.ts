import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '@bakehouse/records';
import { lookupOf } from '../lookup/lookup.js';
import { stagesOf } from './stages.js';
import { timersOf } from './timers.js';
import { night, row } from '../../../../test/fixtures/bakehouse.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';

type Passed = PayloadFor<'stage-passed'>;

/** Twenty tins made up at 03:30; ten went into the oven at 04:10 and ten at 04:12. */
function tins() {
  const n = oneBatch();
  const pass = (step: Passed['step'], way: Passed['way'], time: string, type: 'run' | 'make' = 'run') =>
    n.book.record(
      'stage-passed',
      { subjects: [{ type, id: type === 'run' ? n.run : n.make }], place: null, step, way },
      { at: night(time) },
    );
  const lookup = (time: string) => lookupOf(n.book.snapshot(), row(time), 'Europe/London');
  const stages = (time: string, of = n.run) => stagesOf(lookup(time), of).map((s) => [s.step, s.from, s.to]);
  return { ...n, pass, lookup, stages };
}

describe('where pieces were, and until when', () => {
  it('ends with the load that took the last of them: nobody has to say that they are out of the prover', () => {
    const n = tins();
    n.pass('prove', 'in', '03:35');
    expect(n.stages('04:11')).toEqual([['prove', row('03:35'), null]]);
    expect(n.stages('04:13')).toEqual([['prove', row('03:35'), row('04:12')]]);
    expect(timersOf(n.lookup('04:11'), '2026-11-25').filter((t) => t.step === 'prove')).toHaveLength(1);
    expect(timersOf(n.lookup('04:13'), '2026-11-25').filter((t) => t.step === 'prove')).toEqual([]);
  });

  it('ends when somebody said so, whatever came after', () => {
    const n = tins();
    n.pass('prove', 'in', '03:35');
    n.pass('prove', 'out', '04:05');
    expect(n.stages('05:00')).toEqual([['prove', row('03:35'), row('04:05')]]);
  });

  it('ends in the retarder when they go into the prover', () => {
    const n = tins();
    n.pass('retard', 'in', '03:32');
    n.pass('prove', 'in', '03:50');
    expect(n.stages('05:00')).toEqual([
      ['retard', row('03:32'), row('03:50')],
      ['prove', row('03:50'), row('04:12')],
    ]);
  });

  it('does not end by a load that was before: baked, they are in the freezer until somebody says so', () => {
    const n = tins();
    n.pass('freeze', 'in', '05:30');
    expect(n.stages('06:00')).toEqual([['freeze', row('05:30'), null]]);
  });

  it('ends for a dough when it is made up', () => {
    const n = tins();
    n.pass('rest', 'in', '02:45', 'make');
    expect(n.stages('03:00', n.make)).toEqual([['rest', row('02:45'), null]]);
    expect(n.stages('03:31', n.make)).toEqual([['rest', row('02:45'), row('03:30')]]);
  });
});
