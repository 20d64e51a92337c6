import { describe, expect, it } from '@jest/globals';
import { cream, iso, kitchen } from '../../../../test/fixtures/past-life-house.js';
import { delivered, g, lead, materials, night, places } from '../../../../test/fixtures/bakehouse.js';
import { uuid } from '../../../../test/fixtures/driver.js';
import { oneBatch } from '../../../../test/fixtures/one-batch.js';
import { dispositionChoice, type SubjectType } from '../index.js';
import type { PayloadFor } from '../kinds.js';

type Decision = PayloadFor<'disposition-decided'>;
const butter = uuid(0xe41);

/** A batch of a dough baked in two loads, and a delivery that has nothing to do with either; deviations about any of them. */
function house() {
  const n = oneBatch();
  const line = delivered(butter, materials.flour);
  n.book.record(
    'delivery-received',
    { supplier: null, noteNumber: null, photo: null, unattended: false, lines: [line] },
    { at: night('01:00') },
  );
  const report = (subjectType: SubjectType, subject: string, holds = true, at = '05:01'): string =>
    n.book.record(
      'deviation-reported',
      { subjectType, subject, class: 'ccp', holds },
      { at: night(at), words: { what: 'something was wrong' } },
    ).id;
  const payload = (deviation: string, lot: string, of: Partial<Decision> = {}): Decision => ({
    ...{ deviation, lot, disposition: 'destroyed', covers: 'this-alone', concerns: [], quantity: { figure: '1', unit: 'piece' } },
    ...of,
  });
  const by = { at: night('06:00'), person: lead };
  const decide = (...of: Parameters<typeof payload>) => n.book.record('disposition-decided', payload(...of), by);
  const refused = (...of: Parameters<typeof payload>) => n.book.refusal('disposition-decided', payload(...of), by);
  return { ...n, report, payload, decide, refused };
}
const about = { problem: 'not-about-this-food', field: 'payload.lot' };

describe('a decision about one lot under a deviation', () => {
  it.each(dispositionChoice.options)('is refused about food that the deviation is not about: %s', (disposition) => {
    const h = house();
    const deviation = h.report('make', h.make);
    const departures = h.book.all('departure').length;
    expect(h.refused(deviation, butter, { disposition, quantity: null })).toMatchObject({
      ...about,
      acceptable: expect.stringContaining(h.book.all('lot').find((l) => l.id === h.make)?.name ?? '?'),
    });
    expect(h.book.all('departure')).toHaveLength(departures);
  });

  it('is taken about what it names and what came of that, but not about what that was made of', () => {
    const h = house();
    const batch = h.countOut().id;
    for (const holds of [true, false]) {
      h.decide(h.report('make', h.make, holds), batch);
      h.decide(h.report('run', h.run, holds), batch);
      h.decide(h.report('batch', batch, holds), batch);
    }
    expect(h.refused(h.report('batch', batch), h.make, { quantity: g('10') })).toMatchObject(about);
  });

  it('is taken about the pieces of a load before they are counted out, and then about the batches of that load alone', () => {
    const h = house();
    const deviation = h.report('load', h.loads[0]);
    h.decide(deviation, h.run);
    const of = (load: string, code: string) => h.countOut({ pieces: 10, loads: [load], code }).id;
    const [first, second] = [of(h.loads[0], '6329-A'), of(h.loads[1], '6329-B')];
    h.decide(deviation, first);
    expect(h.refused(deviation, second)).toMatchObject({ ...about, acceptable: expect.stringContaining('6329-A') });
    // What was reported of pieces in the oven names their run, though they were counted out in the meantime.
    h.decide(deviation, h.run);
  });

  it.each(['site', 'place'] as const)(
    'is taken under a deviation about a %s, which names no food, but ends nothing that holds it',
    (type) => {
      const h = house();
      const deviation = h.report(type, type === 'site' ? (h.book.all('make')[0]?.site ?? '') : places.mixer, false);
      const other = h.report('lot', butter);
      expect(h.refused(deviation, butter, { disposition: 'accepted-for-use', quantity: null, concerns: [other] })).toMatchObject({
        ...about,
        acceptable: expect.stringContaining('no food'),
      });
      h.decide(deviation, butter, { quantity: g('10') });
    },
  );

  it('is taken once a record that came late says that the food came of it', () => {
    const k = kitchen();
    const make = k.begun(iso('16:00'));
    const deviation = k.book.record(
      'deviation-reported',
      { subjectType: 'lot', subject: cream, class: 'oprp', holds: false },
      { at: night('15:00'), words: { what: 'a smell' } },
    ).id;
    const destroyed: Decision = {
      ...{ deviation, lot: make, disposition: 'destroyed', covers: 'this-alone' },
      concerns: [],
      quantity: null,
    };
    const by = { at: night('18:00'), person: lead };
    expect(k.book.refusal('disposition-decided', destroyed, by)).toMatchObject(about);
    k.used(cream, make, iso('16:05'));
    k.book.record('disposition-decided', destroyed, by);
  });

  it('can be corrected though it would be refused today, but not to be about other food', () => {
    const h = house();
    const deviation = h.report('load', h.loads[0]);
    const batch = h.countOut({ pieces: 10, loads: [h.loads[0]] });
    const { id } = h.decide(deviation, batch.id);
    h.countOut({ pieces: 10, loads: [h.loads[1]] }, { corrects: batch.id, at: night('05:30'), words: { reason: 'the other load' } });
    expect(h.refused(deviation, batch.id)).toMatchObject(about);
    const correction = { corrects: id, words: { reason: 'two pieces' }, at: night('06:10'), person: lead };
    expect(h.book.refusal('disposition-decided', h.payload(deviation, butter, { quantity: g('10') }), correction)).toMatchObject(about);
    h.book.record('disposition-decided', h.payload(deviation, batch.id, { quantity: { figure: '2', unit: 'piece' } }), correction);
  });
});
