import { derivedId } from '@bakehouse/kernel';
import { WorkingSet, type Change, type Row } from '@bakehouse/records';
import { describe, expect, it } from '@jest/globals';
import { takenBackText } from '../lookup/taken-back-text.js';
import { takenBackOf } from './taken-back.js';

const make = '0190a6d0-7b3c-7000-8000-00000000a001';
const root = '0190a6d0-7b3c-7000-8000-00000000a002';
const lot = '0190a6d0-7b3c-7000-8000-00000000a003';
const instant = '2026-11-25T05:00:00.000Z';
const deviation: Change = {
  in: 'deviation',
  id: derivedId(root, 'deviation'),
  row: {
    subjectType: 'make',
    subject: make,
    type: 'held-lot-used',
    class: 'ccp',
    summary: 'flour',
    holds: false,
    point: null,
    doneBy: null,
    lot,
    at: instant,
  },
};

/** A version of a record: it tells of the deviation, or of something else, or takes the record back. */
const versions = ['tells', 'else', 'withdrawn'] as const;
type Version = (typeof versions)[number];
const sequences = (length: number): Version[][] =>
  length === 0 ? [[]] : sequences(length - 1).flatMap((some) => versions.map((v) => [...some, v]));

/** Applies the versions as the door does, and asks of the last one. */
function after(chain: readonly Version[]) {
  const work = new WorkingSet(true);
  const rowsOf = (v: Version | undefined): Change[] => (v === 'tells' ? [deviation] : []);
  chain.forEach((v, i) => work.apply({ entry: `entry ${i}`, seq: i }, rowsOf(v), rowsOf(chain[i - 1])));
  const row = work.dirty().get('deviation')?.get(deviation.id);
  if (!row) throw new Error('a deviation is gone with its record');
  const content = (v: Version | undefined, entry: string) => ({
    entry,
    kind: v === 'withdrawn' ? 'entry-withdrawn' : 'weighed-in',
    input: { at: instant, doneBy: null, payload: { lines: [{ lot: v === 'tells' ? 'M-1' : 'M-2' }] } },
  });
  const last = chain.length - 1;
  const of = { id: deviation.id, type: 'held-lot-used' } as const;
  return takenBackOf(
    { deviation: of, told: content('tells', row.origin.entry), now: content(chain[last], `entry ${last}`), readings: [] },
    () => null,
  );
}

describe('what became of the record of a deviation', () => {
  it.each(sequences(4).filter((chain) => chain[0] === 'tells'))('follows from the version that counts now: %s, %s, %s, %s', (...chain) => {
    const now = { tells: null, else: 'corrected', withdrawn: 'withdrawn' }[chain.at(-1) ?? 'tells'];
    expect(after(chain)?.as ?? null).toBe(now);
  });

  it('says where the two differ, as it stands now, and nothing where that is withheld', () => {
    const told = { entry: 'a', kind: 'weighed-in', input: { at: instant, doneBy: null, payload: { lot, answer: 'not-done' } } };
    const of = { deviation: { id: deviation.id, type: 'not-taken' }, told, readings: [] } as const;
    const now = { ...told, entry: 'b', input: { at: instant, doneBy: null, payload: { lot: make, answer: 'not-needed' } } };
    const name = (id: string): string | null => (id === make ? 'flour M-2' : null);
    expect(takenBackText(takenBackOf({ ...of, now }, name))).toBe(
      'The record it came from was corrected: lot: flour M-2; answer: not-needed',
    );
    expect(takenBackText(takenBackOf({ ...of, now }, () => null))).toBe('The record it came from was corrected: answer: not-needed');
    expect(takenBackText(takenBackOf({ ...of, now: { ...now, input: null } }, name))).toBe('The record it came from was corrected');
  });

  it.each([
    ['within', '94.4 °C, within the limit'],
    ['unsure', '94.4 °C, too close to call: probe again'],
    ['not-believable', '94.4 °C, not plausible: check and measure again'],
    ['outside', null],
  ] as const)('of a corrected reading that is %s says %s', (verdict, says) => {
    const reading: Row<'reading'> = {
      ...{ id: root, subject: make, subjectType: 'make' as const, point: null, pointKey: null },
      ...{
        measured: 'core' as const,
        parameter: 'core',
        figure: '94.4',
        unit: 'degC' as const,
        milli: 94_400,
        yes: null,
        seconds: null,
        verdict,
        class: 'ccp' as const,
        judgedBy: null,
      },
      ...{ instrument: null, halfWidthMilli: 0, rule: 1, at: instant, doneBy: null, corrected: true },
    };
    const same = { entry: 'b', kind: 'reading-taken', input: null };
    const behind = { deviation: { id: deviation.id, type: 'limit' }, told: same, now: same } as const;
    expect(takenBackOf({ ...behind, readings: [reading] }, () => null)?.says ?? null).toBe(says);
  });
});
