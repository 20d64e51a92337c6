import { describe, expect, it } from '@jest/globals';
import { maxAfter } from '@bakehouse/kernel';
import { kindOf, workingSetOf } from '@bakehouse/records';
import { delivered, g, materials, night, tartVersion } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';
import { comesAfter, dependsOn, evidenceFor } from './depends-on.js';

const { book, make, loads, countOut } = oneBatch();
const batch = countOut().id;
const releasedByRule = kindOf({ kind: 'released-by-rule' });

const madeBy = new Map([
  ['make', 'entry 1'],
  ['run', 'entry 2'],
  ['entry 1', 'entry 1'],
]);

describe('what an entry builds on', () => {
  it.each([
    ['nothing that waits', { make: 'another' }, undefined, []],
    ['an id anywhere in its payload', { lines: [{ run: 'run', pieces: 3 }] }, undefined, ['entry 2']],
    ['several, each once', { a: 'make', b: ['run', 'make', null, 4] }, undefined, ['entry 1', 'entry 2']],
    ['what it corrects', {}, 'entry 1', ['entry 1']],
  ] as const)('is %s', (_what, payload, corrects, expected) => {
    expect(dependsOn(payload, corrects, madeBy)).toEqual(expected);
  });
});

describe('what a release rests on', () => {
  const saved = (id: string, payload: unknown) => ({ id, entry: { payload } });
  const pending = [
    saved('the core of its load', { subjectType: 'load', subject: loads[0], value: { figure: '95.1' } }),
    saved('of another night', { subjectType: 'load', subject: 'another load' }),
    saved('its dough', { subject: make }),
    saved('back in', { load: loads[1], step: 'back-in' }),
  ];

  it.each([
    ['the pending entries about its batch, make, run and loads', { batch }, ['the core of its load', 'its dough', 'back in']],
    ['the same where its batch goes out', { lines: [{ lots: [batch] }] }, ['the core of its load', 'its dough', 'back in']],
    ['nothing where no batch is named', { subject: loads[0] }, []],
  ])('is %s', (_what, payload, expected) => {
    expect(evidenceFor(payload, workingSetOf(book.snapshot()), pending)).toEqual(expected);
  });

  it('is also what waits about what went into it: the reading of a custard’s make, the delivery of a lot', () => {
    const n = oneBatch({ weighed: false });
    const bakeDay = '2026-11-25';
    const begun = { formulaVersion: tartVersion, station: null, plan: null, bakeDay, plannedMg: null };
    const custard = n.book.record('make-begun', begun, { at: night('01:00') }).id;
    const cream = delivered(uuid(0xe61), materials.cream);
    const delivery = n.book.record(
      'delivery-received',
      { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [cream] },
      { at: night('00:30') },
    ).id;
    const into = (material: string, lot: string) => ({ material, lot, quantity: g('500'), how: 'weighed', type: 'ingredient' }) as const;
    n.book.record('weighed-in', { make: custard, lines: [into(materials.cream, cream.lot)] }, { at: night('01:10') });
    n.book.record('weighed-in', { make: n.make, lines: [into(materials.treacleFilling, custard)] }, { at: night('02:32') });
    const waiting = [
      saved('the custard was hot enough', { subjectType: 'make', subject: custard }),
      saved('the cream was cold', { subjectType: 'delivery', subject: delivery }),
      saved('the pack of cream', { subjectType: 'lot', subject: cream.lot }),
      saved('of another night', { subject: uuid(0xeee) }),
    ];
    expect(evidenceFor({ batch: n.countOut().id }, workingSetOf(n.book.snapshot()), waiting)).toEqual(waiting.slice(0, 3).map((e) => e.id));
  });

  const state = workingSetOf(book.snapshot());
  const after = (many: typeof pending) =>
    comesAfter({ payload: { batch }, corrects: undefined }, { madeBy: new Map([[batch, 'counted out']]), state }, many);

  it('comes with what the entry builds on', () => {
    expect(after(pending)).toEqual(['the core of its load', 'its dough', 'back in', 'counted out']);
  });

  it('is named whole, however many readings wait, in an entry that can be read', () => {
    const many = Array.from({ length: 250 }, (_, i) => saved(uuid(1000 + i), { subject: make }));
    const all = comesAfter({ payload: { batch }, corrects: undefined }, { madeBy: new Map(), state }, many);
    expect(all).toEqual(many.map((e) => e.id));
    expect(releasedByRule?.read(release(all))).toMatchObject({ ok: true, envelope: { after: all } });
  });

  it('is never cut: an entry that would name more than an envelope may is refused, and says where', () => {
    const many = Array.from({ length: maxAfter + 1 }, (_, i) => saved(uuid(1000 + i), { subject: make }));
    expect(releasedByRule?.read(release(after(many).filter((id) => id !== 'counted out')))).toMatchObject({ ok: false, field: 'after' });
  });
});

const release = (after: readonly string[]) => ({
  id: uuid(7),
  kind: 'released-by-rule',
  version: 1,
  after,
  occurredAt: { at: '2026-11-25T05:31:00.000+00:00', precision: 'exact' },
  doneBy: null,
  device: { id: null, seq: 0, clockErrorMs: null },
  payload: releasedByRule?.examples[0],
});
