import type { PayloadFor } from '@bakehouse/records';
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { LedgerWriter } from '../../apps/api/src/platform/ledger/ledger-writer.js';
import type { Result } from '../../apps/api/src/platform/ledger/types.js';
import { verifyProjections } from '../../apps/api/src/platform/ledger/verify.js';
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
afterAll(() => ledger.stop());

const delivery = (lot: string, kg = '25', more = {}) => entry('delivery-received', flourDelivery(flour, lot, kg), more);
const reading = (figure: string, more = {}) => entry('reading-taken', roomReading(ledger.site.id, figure), more);
const atSite = (raw: unknown[], writer = ledger.writer): Promise<Result[]> => writer.record(ledger.site, ledger.asker(), raw);
const rowOf = async (table: string, id: string): Promise<Record<string, unknown> | undefined> =>
  (await ledger.owner.query<Record<string, unknown>>(`SELECT * FROM ${ledger.owner.escapeIdentifier(table)} WHERE id = $1`, [id])).rows[0];
/** A second process on the same database. */
const otherProcess = () =>
  new LedgerWriter({
    inOrganisation: (o, work) => ledger.tenancy.inOrganisation(o, work),
    now: () => ledger.clock.now(),
    fault: (e) => ledger.faults.push(e),
  });

describe('two processes on one database', () => {
  it('write one book at once: every entry once, in an order without gaps', async () => {
    const other = otherProcess();
    const entries = Array.from({ length: 80 }, (_, i) => reading(String(i)));
    const results = await Promise.all(
      entries.flatMap((e, i) => [atSite([e]), atSite([e, ...(i % 3 === 0 ? [reading(`${i}.5`)] : [])], other)]),
    );
    const bySeq = new Map<number, string>();
    for (const r of results.flat()) {
      expect(['recorded', 'already-recorded']).toContain(r.as);
      if (r.as === 'recorded' || r.as === 'already-recorded') expect(bySeq.get(r.receipt.seq) ?? r.id).toBe(r.id);
      if (r.as === 'recorded' || r.as === 'already-recorded') bySeq.set(r.receipt.seq, r.id);
    }
    expect(bySeq.size).toBe(80 + 27);
    expect(Math.max(...bySeq.keys()) - Math.min(...bySeq.keys())).toBe(bySeq.size - 1);
  });

  it('are sent one id for two books at once: one has it, the other is told that it is taken', async () => {
    const other = otherProcess();
    for (let i = 0; i < 12; i += 1) {
      const id = newId();
      const [a, b] = await Promise.all([
        atSite([reading('1', { id }), reading('2')]),
        other.record(ledger.house, ledger.asker(), [
          entry('specification-accepted', flourSpecification(newId()), { id, at: '2026-11-01T08:00:00Z' }),
          entry('specification-accepted', flourSpecification(newId()), { at: '2026-11-01T08:00:00Z' }),
        ]),
      ]);
      expect([as(a)[0], as(b)[0]].sort()).toEqual(['id-reused', 'recorded']);
      expect([as(a)[1], as(b)[1]]).toEqual(['recorded', 'recorded']);
    }
  });

  it('are sent one signed entry with one token at once: signed once, recorded once', async () => {
    const { createHash } = await import('node:crypto');
    const { inputOf } = await import('../../apps/api/src/platform/ledger/content.js');
    const { kindOf } = await import('@bakehouse/records');
    const plan = entry('plan-approved', {
      series: newId(),
      number: 1,
      site: null,
      content: {
        name: 'Plan',
        scope: '',
        team: '',
        pastLife: { opened: 'warn', madeHere: 'warn' },
        points: [
          {
            key: 'core',
            name: 'core',
            step: 'bake',
            class: 'process-check',
            hazard: '',
            formulas: [],
            products: [],
            measured: 'core',
            parameter: 'core',
            limit: { type: 'range', min: '93', max: null, unit: 'degC' },
            holdSeconds: null,
            frequency: 'each-load',
            ifNotMonitored: 'record',
            ifOutside: 'note',
            correctiveAction: '',
            basis: '',
          },
        ],
      },
    });
    const read = kindOf(plan)?.read(plan);
    const hash = read?.ok === true ? inputOf(read.envelope)?.hash : undefined;
    const asker = ledger.asker();
    const token = randomUUID();
    await ledger.owner.query(
      `INSERT INTO signature_token (organisation, token_hash, person, input_hash, meaning, signed_at, expires_at)
      VALUES ($1, $2, $3, $4, $5, $6, $7)`,
      [
        ledger.organisation,
        createHash('sha256').update(token).digest(),
        asker.person,
        hash,
        'in force',
        '2026-11-25T11:59:00Z',
        '2026-11-25T12:01:00Z',
      ],
    );
    const signed = { ...plan, send: { signature: token } };
    const other = otherProcess();
    const results = await Promise.all([ledger.writer, other, ledger.writer, other].map((w) => w.record(ledger.house, asker, [signed])));
    expect(results.map((r) => as(r)[0]).sort()).toEqual(['already-recorded', 'already-recorded', 'already-recorded', 'recorded']);
    const second = { ...plan, id: newId(), send: { signature: token } };
    expect(as(await ledger.writer.record(ledger.house, asker, [second]))).toEqual(['signature-not-valid']);
    const { rows } = await ledger.owner.query('SELECT used_by FROM signature_token');
    expect(rows).toEqual([{ used_by: plan.id }]);
  });
});

describe('a row belongs to the entries that made it', () => {
  it('is never written over by an entry of another chain that chose its id', async () => {
    const lot = newId();
    expect(as(await atSite([delivery(lot)]))).toEqual(['recorded']);
    const before = await rowOf('lot', lot);
    const vessel = await ledger.writer.record(ledger.site, ledger.asker(), [
      entry('place-in-use', { name: 'Tub', type: 'vessel', within: null }),
    ]);
    const topUp: PayloadFor<'vessel-topped-up'> = {
      vessel: vessel[0]?.id ?? '',
      material: flour,
      kept: null,
      keptHow: 'estimated',
      added: [{ material: flour, lot: null, quantity: { figure: '1', unit: 'kg' }, how: 'weighed' }],
    };
    expect(as(await atSite([entry('vessel-topped-up', topUp, { id: lot })]))).toEqual(['id-reused']);
    expect(await rowOf('lot', lot)).toEqual(before);
    const inOneGo = newId();
    expect(as(await atSite([delivery(inOneGo), entry('vessel-topped-up', topUp, { id: inOneGo }), reading('9')]))).toEqual([
      'recorded',
      'id-reused',
      'recorded',
    ]);
  });

  it('nor where two books name one id at once', async () => {
    const other = otherProcess();
    const second = { ...ledger.site, id: randomUUID() };
    await ledger.owner.query(
      "INSERT INTO book (organisation, id, type, name, zone) VALUES ($1, $2, 'site', 'Second site', 'Europe/London')",
      [ledger.organisation, second.id],
    );
    for (let i = 0; i < 12; i += 1) {
      const lot = newId();
      const [a, b] = await Promise.all([
        atSite([delivery(lot, '25'), reading('1')]),
        other.record(second, ledger.asker(), [delivery(lot, '7')]),
      ]);
      expect([as(a)[0], as(b)[0]].sort()).toEqual(['id-reused', 'recorded']);
      expect(as(a)[1]).toBe('recorded');
    }
    const findings = await ledger.tenancy.inOrganisation(ledger.organisation, (client) => verifyProjections(client, second));
    expect(findings).toEqual([]);
  });
});

describe('what the database refuses', () => {
  it('fails alone: the requests beside it and the good entries beside it in its own are recorded', async () => {
    await ledger.owner.query("ALTER TABLE reading ADD CONSTRAINT poison CHECK (figure <> '66.6')");
    const results = await Promise.all([
      atSite([reading('1')]),
      atSite([reading('2'), reading('66.6'), reading('3')]),
      atSite([reading('4')]),
      atSite([reading('66.6')]),
    ]);
    expect(results.map(as)).toEqual([['recorded'], ['recorded', 'fault', 'recorded'], ['recorded'], ['fault']]);
    await ledger.owner.query('ALTER TABLE reading DROP CONSTRAINT poison');
    const kept = await ledger.owner.query(
      "SELECT problem FROM set_aside WHERE body -> 'entry' -> 'payload' -> 'value' ->> 'figure' = '66.6'",
    );
    expect(kept.rows).toEqual([{ problem: 'fault' }, { problem: 'fault' }]);
    ledger.faults.length = 0;
  });

  it('leaves the lane open when the database goes away in the middle, and nothing half-written', async () => {
    let fail = true;
    const flaky = new LedgerWriter({
      inOrganisation: (o, work) =>
        ledger.tenancy.inOrganisation(o, async (client) => {
          const result = await work(client);
          if (fail) await client.query('SELECT pg_terminate_backend(pg_backend_pid())');
          return result;
        }),
      now: () => ledger.clock.now(),
      fault: (e) => ledger.faults.push(e),
    });
    const some = [reading('1'), reading('2')];
    await expect(atSite(some, flaky)).rejects.toMatchObject({ code: '57P01' });
    const { rows } = await ledger.owner.query('SELECT 1 FROM entry WHERE id = ANY($1)', [some.map((e) => e.id)]);
    expect(rows).toEqual([]);
    fail = false;
    expect(as(await atSite(some, flaky))).toEqual(['recorded', 'recorded']);
  });
});

describe('absurd times and nesting', () => {
  it.each([
    ['before our era', { at: '0000-01-01T00:00:00Z' }],
    ['before our era by its offset', { at: '0001-01-01T00:00:00+14:00' }],
    ['of the eleventh millennium', { at: '9999-12-31T23:59:59-14:00' }],
  ])('refuses a time %s beside good entries', async (_what, more) => {
    const [bad, good] = await atSite([reading('1', more), reading('2')]);
    expect(['malformed', 'in-the-future', 'unacceptable-value']).toContain(bad?.as === 'refused' ? bad.problem : bad?.as);
    expect(good?.as).toBe('recorded');
  });

  it('opens the future to nobody: what a person typed is refused, what a device’s clock said is taken as of unknown time', async () => {
    const typed = reading('1', { at: '2031-01-01T00:00:00Z', precision: 'about' });
    const far = { ...reading('1', { at: '2031-01-01T00:00:00Z' }), device: { id: null, seq: 1, clockErrorMs: 14 * 60_000 } };
    const absurd = { ...reading('1'), device: { id: null, seq: 1, clockErrorMs: Number.MAX_SAFE_INTEGER } };
    const fourteenMinutes = { ...reading('2', { at: '2026-11-25T12:14:00Z' }), device: { id: null, seq: 1, clockErrorMs: 14 * 60_000 } };
    expect(as(await atSite([typed, far, absurd, fourteenMinutes]))).toEqual(['in-the-future', 'recorded', 'recorded', 'recorded']);
    const { rows } = await ledger.owner.query('SELECT id, precision FROM entry WHERE id = ANY($1)', [[far.id, fourteenMinutes.id]]);
    expect(new Map(rows.map((r) => [r.id, r.precision]))).toEqual(
      new Map([
        [far.id, 'unknown'],
        [fourteenMinutes.id, 'exact'],
      ]),
    );
  });

  it('keeps what nests a hundred thousand deep short, and lets the good beside it in', async () => {
    const deep: unknown = JSON.parse(`${'['.repeat(100_000)}${']'.repeat(100_000)}`);
    const id = newId();
    expect(as(await atSite([deep, { ...reading('1'), id, payload: deep }, { ...reading('1'), words: deep }, reading('2')]))).toEqual([
      'unknown-kind',
      'malformed',
      'malformed',
      'recorded',
    ]);
  });

  it('keeps no signature token of what it refuses, wherever it stands', async () => {
    const token = `token-${randomUUID()}`;
    await atSite([
      { ...reading('1'), payload: {}, send: { signature: token } },
      [{ send: { signature: token } }],
      { ...reading('2'), signature: token },
      { kind: 'x', payload: { send: { signature: token } } },
    ]);
    const { rows } = await ledger.owner.query<{ body: unknown }>('SELECT body FROM set_aside WHERE body::text LIKE $1', [`%${token}%`]);
    expect(rows).toEqual([]);
  });
});

it('comes out of all this as its bytes say, without a fault', () => expectSound(ledger));
