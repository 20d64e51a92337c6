import { createHash, randomUUID } from 'node:crypto';
import { kindOf } from '@bakehouse/records';
import { tokenHash } from '../../apps/api/src/platform/ids/index.js';
import { inputOf } from '../../apps/api/src/platform/ledger/index.js';
import { entry } from '../support/entries.js';
import type { TestLedger } from '../support/ledger.js';
import type { Happening } from './model.js';

export type Sent = ReturnType<typeof entry>;
const uuid = (): string => randomUUID();

/** A house with one material, one formula and a mixer: enough to receive, weigh in, send out, take back and count. */
export class SimulatedHouse {
  private constructor(
    readonly material: string,
    readonly makes: readonly string[],
  ) {}

  static async found(ledger: TestLedger): Promise<SimulatedHouse> {
    const [material, dough, formula] = [uuid(), uuid(), uuid()];
    const spec = {
      countedIn: 'mass' as const,
      densityMgPerMl: null,
      storage: 'ambient' as const,
      lifeDays: null,
      lifeOpenedHours: null,
      contains: [],
      mayContain: [],
      checked: null,
      animalOrigin: false,
      supplier: null,
    };
    await recorded(ledger, 'house', [
      entry('specification-accepted', { ...spec, material, name: 'flour', type: 'ingredient', flour: true }),
      entry('specification-accepted', { ...spec, material: dough, name: 'dough', type: 'intermediate', flour: false }),
    ]);
    const version = await signed(
      ledger,
      entry('formula-approved', {
        formula,
        number: 1,
        name: 'dough',
        type: 'dough',
        content: {
          lines: [{ material, name: 'flour', mg: 1_000_000, flour: true, madeBy: null }],
          steps: [],
          products: [],
          makes: dough,
          doughCelsius: null,
          frictionCelsius: null,
          minutesSlow: null,
          minutesFast: null,
          lifeHours: null,
          rework: null,
        },
      }),
    );
    const makes = Array.from({ length: 4 }, () =>
      entry('make-begun', { formulaVersion: version, station: null, plan: null, bakeDay: '2026-11-25', plannedMg: null }),
    );
    await recorded(ledger, 'site', makes);
    return new SimulatedHouse(
      material,
      makes.map((m) => m.id),
    );
  }

  /** A happening as a device would send it. */
  entryOf(h: Happening, o: { corrects?: string } = {}): Sent {
    const options = { at: h.at, ...(o.corrects === undefined ? {} : { corrects: o.corrects, words: { reason: 'it was otherwise' } }) };
    switch (h.type) {
      case 'delivered':
        return entry(
          'delivery-received',
          {
            supplier: null,
            noteNumber: null,
            photo: null,
            unattended: false,
            lines: [
              {
                lot: h.lot,
                material: this.material,
                code: h.lot.slice(0, 8),
                codeState: 'on-it',
                quantity: g(h.grams),
                asWritten: null,
                bestBefore: null,
                useBy: null,
                temperature: null,
              },
            ],
          },
          options,
        );
      case 'weighed-in':
        return entry(
          'weighed-in',
          {
            make: h.make,
            lines: h.lines.map((l) => ({
              material: this.material,
              lot: l.lot,
              quantity: g(l.grams),
              how: 'weighed' as const,
              type: 'ingredient' as const,
            })),
          },
          options,
        );
      case 'sent-out':
        return entry(
          'sent-out',
          {
            channel: 'dispatch',
            customer: null,
            unattended: false,
            until: null,
            lines: [{ lots: [h.lot], quantity: g(h.grams), how: 'weighed' }],
          },
          options,
        );
      case 'returned':
        return entry(
          'goods-returned',
          { lot: h.lot, departure: null, customer: null, quantity: g(h.grams), how: 'weighed', disposition: h.disposition },
          options,
        );
      case 'counted':
        return entry('lot-counted', { lot: h.lot, place: null, quantity: g(h.grams) }, options);
    }
  }
}

const g = (grams: number) => ({ figure: String(grams), unit: 'g' as const });

async function recorded(ledger: TestLedger, book: 'site' | 'house', entries: readonly Sent[]): Promise<void> {
  const refused = (await ledger.writer.record(ledger[book], ledger.asker(), entries)).find((r) => r.as !== 'recorded');
  if (refused) throw new Error(`the house was not founded: ${JSON.stringify(refused)}`);
}

/** Signs as the service's sign-on would have: a token for exactly this input. */
async function signed(ledger: TestLedger, e: Sent): Promise<string> {
  const asker = ledger.asker();
  const read = kindOf(e)?.read(e);
  const input = read?.ok ? inputOf(read.envelope) : undefined;
  if (!input) throw new Error(`what is to be signed cannot be read: ${JSON.stringify(read)}`);
  const token = createHash('sha256').update(e.id).digest('base64url');
  await ledger.owner.query(
    'INSERT INTO signature_token (organisation, token_hash, person, input_hash, meaning, signed_at, expires_at) VALUES ($1, $2, $3, $4, $5, $6, $7)',
    [
      ledger.organisation,
      tokenHash(token),
      asker.person,
      input.hash,
      'simulated',
      ledger.clock.now().toISOString(),
      '2027-01-01T00:00:00Z',
    ],
  );
  const [result] = await ledger.writer.record(ledger.house, asker, [{ ...e, send: { signature: token } }]);
  if (result?.as !== 'recorded') throw new Error(`not signed: ${JSON.stringify(result)}`);
  return e.id;
}
