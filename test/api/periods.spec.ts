import type { InspectionView, TraceView } from '@bakehouse/contracts';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettableClock } from '../../apps/api/src/platform/clock/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { fileFrom, pagesOf } from '../support/read-papers.js';

const day = '2026-11-25';
let t: TestApp;
let b: Bakehouse;
let view: InspectionView;
let trace: TraceView;
const between = (from: string, until: string) => ({ at: at(from), precision: 'between' as const, until: at(until) });
const instant = (time: string): string => `${day}T${time}:00.000Z`;
beforeAll(async () => {
  t = await startTestApp({ clock: new SettableClock(`${day}T14:00:00Z`), env: { SEAL_KEY: Buffer.alloc(32, 7).toString('base64') } });
  b = await Bakehouse.found(t);
  const make = await b.begun('white', at('02:35'), { station: b.place('mixer') });
  await b.baker.record('reading-taken', b.reading('dough', 'make', make, '25.8'), between('03:10', '03:40'));
  await b.baker.record(
    'stage-passed',
    { subjects: [{ type: 'make', id: make }], place: null, step: 'fold', way: 'once' },
    between('03:45', '03:55'),
  );
  const lines = [{ lots: [make], quantity: g('100'), how: 'weighed' as const }];
  await b.baker.record('sent-out', { channel: 'waste', customer: null, unattended: false, until: null, lines }, between('04:00', '04:20'));
  trace = (await b.lead.caller.get(`/lots/${make}/trace`).expect(200)).body;
  view = (await b.baker.caller.get(`/sites/${b.site}/inspection`).expect(200)).body;
});
afterAll(() => t.close());

describe('what happened between two instants', () => {
  it('is given with both to the officer’s page, of a reading and of a stage, and with one where it has one', () => {
    const [make] = view.makes;
    expect(make).toMatchObject({ at: instant('02:35'), precision: 'exact', until: null });
    expect(make?.readings).toMatchObject([{ at: instant('03:10'), precision: 'between', until: instant('03:40') }]);
    expect(make?.stages).toMatchObject([{ at: instant('03:45'), precision: 'between', until: instant('03:55') }]);
  });

  it('is in a trace with both, of what left', () => {
    expect(trace.ends).toMatchObject([{ at: instant('04:00'), until: instant('04:20') }]);
  });

  it('is printed with both', async () => {
    const { bytes } = await fileFrom(b.baker.caller, `/sites/${b.site}/inspection/pack.pdf`);
    const text = (await pagesOf(bytes)).map((p) => p.text).join(' ');
    expect(text).toContain('between 25 Nov 2026 03:10 and 03:40');
    expect(text).toContain('between 25 Nov 2026 03:45 and 03:55');
  });
});
