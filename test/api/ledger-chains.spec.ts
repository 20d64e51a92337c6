import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { entry, newId } from '../support/entries.js';
import { as, expectSound, startLedger, type TestLedger } from '../support/ledger.js';
import { flourDelivery, flourSpecification, roomReading } from '../support/payloads.js';

let ledger: TestLedger;
const flour = newId();
beforeAll(async () => {
  ledger = await startLedger();
  const specification = entry('specification-accepted', flourSpecification(flour), { at: '2026-11-01T08:00:00Z' });
  expect(as(await ledger.writer.record(ledger.house, ledger.asker(), [specification]))).toEqual(['recorded']);
});
afterAll(async () => {
  await expectSound(ledger);
  await ledger.stop();
});

const delivery = (lot: string, kg = '25', more = {}) => entry('delivery-received', flourDelivery(flour, lot, kg), more);
const reading = (figure: string, more = {}) => entry('reading-taken', roomReading(ledger.site.id, figure), more);
const atSite = (raw: unknown[]) => ledger.writer.record(ledger.site, ledger.asker(), raw);
const because = (corrects: string) => ({ corrects, words: { reason: 'typed wrongly' } });
const milligrams = async (lot: string) => (await ledger.owner.query('SELECT mg FROM lot WHERE id = $1', [lot])).rows;

describe('one request', () => {
  it('takes an original, its correction, a withdrawal and content again, and ends as the last of them says', async () => {
    const lot = newId();
    const first = delivery(lot, '25');
    const results = await atSite([
      first,
      delivery(lot, '24', because(first.id)),
      delivery(lot, '23', because(first.id)),
      entry('entry-withdrawn', {}, because(first.id)),
      entry('entry-withdrawn', {}, because(first.id)),
      delivery(lot, '22', because(first.id)),
    ]);
    expect(as(results)).toEqual(['recorded', 'recorded', 'recorded', 'recorded', 'recorded', 'recorded']);
    expect(await milligrams(lot)).toEqual([{ mg: '22000000' }]);
  });

  it('takes no correction of a correction, and none of itself', async () => {
    const lot = newId();
    const first = delivery(lot);
    const correction = delivery(lot, '24', because(first.id));
    const self = newId();
    expect(
      as(
        await atSite([
          first,
          correction,
          delivery(lot, '23', because(correction.id)),
          delivery(newId(), '1', { id: self, ...because(self) }),
        ]),
      ),
    ).toEqual(['recorded', 'recorded', 'nothing-to-correct', 'nothing-to-correct']);
  });

  it('takes a correction before its original as one of nothing, and both the right way round', async () => {
    const lot = newId();
    const first = delivery(lot);
    const correction = delivery(lot, '24', because(first.id));
    expect(as(await atSite([correction, first, correction]))).toEqual(['nothing-to-correct', 'recorded', 'recorded']);
    expect(await milligrams(lot)).toEqual([{ mg: '24000000' }]);
  });

  it('refuses what builds on something refused, but not once that was corrected under the same id', async () => {
    const [bad, next] = [delivery(newId(), '-5'), reading('3')];
    const good = { ...delivery(newId(), '5'), id: bad.id };
    const [x, y] = [reading('4', { after: [bad.id] }), reading('5', { after: [next.id, bad.id] })];
    expect(as(await atSite([bad, x, next, y]))).toEqual(['unacceptable-value', 'depends-on-refused', 'recorded', 'depends-on-refused']);
    expect(as(await atSite([bad, good, x, y]))).toEqual(['unacceptable-value', 'recorded', 'recorded', 'recorded']);
  });

  it('waits along a chain whose first link is missing, and takes it all when that comes', async () => {
    const chain = [reading('0')];
    for (let i = 1; i < 6; i += 1) chain.push(reading(String(i), { after: [chain[i - 1]?.id ?? ''] }));
    expect(as(await atSite(chain.slice(1)))).toEqual(Array(5).fill('waiting'));
    expect(as(await atSite([...chain.slice(1), ...chain.slice(0, 1)]))).toEqual([...Array(5).fill('waiting'), 'recorded']);
    const kept = await ledger.owner.query('SELECT entry FROM set_aside WHERE entry = ANY($1)', [chain.map(({ id }) => id)]);
    expect(kept.rows.map(({ entry: id }) => id).sort()).toEqual(
      chain
        .slice(1)
        .map(({ id }) => id)
        .sort(),
    ); // once each, though each was sent twice
    expect(as(await atSite(chain))).toEqual(['already-recorded', ...Array(5).fill('recorded')]);
  });

  it('refuses what waits for itself: it could never come', async () => {
    const id = newId();
    expect(as(await atSite([reading('6', { id, after: [id] })]))).toEqual(['malformed']);
  });

  it('refuses a withdrawal that names nothing', async () => {
    expect(as(await atSite([entry('entry-withdrawn', {}, { words: { reason: 'a double tap' } })]))).toEqual(['malformed']);
  });

  it('knows an id in any case of its letters', async () => {
    const id = newId();
    const lot = newId();
    expect(as(await atSite([reading('7', { id }), { ...reading('7'), id: id.toUpperCase() }]))).toEqual(['recorded', 'id-reused']);
    expect(
      as(await atSite([delivery(lot.toUpperCase()), entry('lot-counted', { lot, place: null, quantity: { figure: '24', unit: 'kg' } })])),
    ).toEqual(['recorded', 'recorded']);
    expect(
      as(await atSite([entry('lot-counted', { lot: lot.toUpperCase(), place: null, quantity: { figure: '23', unit: 'kg' } })])),
    ).toEqual(['recorded']);
  });
});
