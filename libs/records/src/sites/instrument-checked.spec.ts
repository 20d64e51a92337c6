import { derivedId } from '@bakehouse/kernel';
import { describe, expect, it } from '@jest/globals';
import type { PayloadFor } from '../kinds.js';
import { instrumentChecked } from './instrument-checked.js';
import { House, testId } from '../../../../test/support/try-kind.js';

const [probe, scale] = [testId(0x31), testId(0x32)];
const since = '2026-01-01T00:00:00.000Z';
const house = (): House =>
  new House([
    { in: 'instrument', id: probe, row: { name: 'P1', type: 'probe', halfWidthMilli: 500, unit: 'degC', since } },
    { in: 'instrument', id: scale, row: { name: 'Bench scale', type: 'scale', halfWidthMilli: 2500, unit: 'g', since } },
  ]);
type Check = PayloadFor<'instrument-checked'>;
const nowhere = { pressurePascal: null, altitudeMetres: null };
const ice = (figure: string, unit: Check['shown']['unit'] = 'degC'): Check => ({
  instrument: probe,
  way: 'ice',
  shown: { figure, unit },
  at: nowhere,
  tolerance: null,
});
const boiling = (figure: string, at: Partial<Check['at']>): Check => ({
  instrument: probe,
  way: 'boiling',
  shown: { figure, unit: 'degC' },
  at: { ...nowhere, ...at },
  tolerance: null,
});

describe('instrument-checked', () => {
  // Ice 0 ± 1 °C, boiling ± 1 °C about the local boiling point: regulators' guidance. 98.98 °C at 300 m: ICAO atmosphere with IAPWS-IF97;
  // 98.90 °C at 975 hPa: the same equation (see the sums of probe checks). A fixed window of 99 to 101 °C would fail a perfect probe at 300 m.
  it.each<[Check, number, number, boolean]>([
    [ice('0.3'), 0, 300, true],
    [ice('1.0'), 0, 1000, true],
    [ice('-1.1'), 0, -1100, false],
    [ice('33.8', 'degF'), 0, 1000, true],
    [ice('33.9', 'degF'), 0, 1056, false],
    [boiling('98.98', { altitudeMetres: 300 }), 98_980, 98_980, true],
    [boiling('98.0', { altitudeMetres: 300 }), 98_980, 98_000, true],
    [boiling('100.5', { altitudeMetres: 300 }), 98_980, 100_500, false],
    [boiling('98.9', { pressurePascal: 97_500, altitudeMetres: 0 }), 98_900, 98_900, true],
    [{ ...ice('0.4'), tolerance: '0.3' }, 0, 400, false],
  ])('%j is judged against %d', (payload, near, milli, passed) => {
    const h = house();
    const checked = h.recorded(instrumentChecked, { payload });
    const row = h.row('instrumentCheck', checked.id);
    expect(row).toMatchObject({ instrument: probe, way: payload.way, milli, passed });
    expect(Math.abs((row?.referenceMilli ?? NaN) - near)).toBeLessThanOrEqual(5); // the sources give hundredths
  });

  it('a probe that fails is recorded and opens a deviation that a better correction does not close', () => {
    const h = house();
    const failed = h.recorded(instrumentChecked, { payload: ice('2.5') });
    const deviation = derivedId(failed.id, 'deviation');
    expect(h.row('deviation', deviation)).toMatchObject({
      subjectType: 'instrument',
      subject: probe,
      type: 'deviation-reported',
      holds: false,
      summary: 'P1',
    });
    h.recorded(instrumentChecked, { payload: ice('0.2'), replaces: failed });
    expect(h.row('instrumentCheck', failed.id)?.passed).toBe(true);
    expect(h.row('deviation', deviation)).toMatchObject({ subject: probe });
  });

  it('a correction is judged with the tolerance of what it replaces', () => {
    const h = house();
    const first = h.recorded(instrumentChecked, { payload: { ...ice('0.4'), tolerance: '0.5' } });
    h.recorded(instrumentChecked, { payload: { ...ice('0.6'), tolerance: '5' }, replaces: first });
    expect(h.row('instrumentCheck', first.id)).toMatchObject({ toleranceMilli: 500, passed: false });
  });

  it.each([
    [{ ...ice('0'), instrument: testId(99) }, 'unknown-instrument', 'payload.instrument'],
    [{ ...ice('0'), instrument: scale }, 'unacceptable-value', 'payload.instrument'],
    [{ ...ice('0'), tolerance: '0' }, 'unacceptable-value', 'payload.tolerance'],
    [{ ...ice('0'), tolerance: '6' }, 'unacceptable-value', 'payload.tolerance'],
    [boiling('99', {}), 'malformed', 'payload.at.pressurePascal'],
    [boiling('99', { pressurePascal: 975 }), 'malformed', 'payload.at.pressurePascal'],
  ])('refuses %j', (payload, problem, field) => {
    expect(house().record(instrumentChecked, { payload })).toMatchObject({ problem, field });
  });
});
