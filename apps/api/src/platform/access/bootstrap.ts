import pg, { type ClientBase } from 'pg';
import type { Clock } from '../clock/index.js';
import { inHouse } from '../database/house-transaction.js';
import { valueTypes } from '../database/types.js';
import { uuidv7 } from '../ids/index.js';
import type { BookRef } from '../ledger/types.js';
import { firstPerson } from './first-person.js';
import { PinHash } from './pin-hash.js';
import { recordPinSet } from './record-pin-set.js';
import { isWeakPin, pinForm } from './weak-pin.js';

const { builtins } = pg.types;

export interface NewOrganisation {
  readonly name: string;
  /** The first site's clock is the organisation's book's too. */
  readonly sites: readonly [NewSite, ...NewSite[]];
  /** A PIN that somebody else may have seen is good for choosing one's own. */
  readonly administrator: { readonly name: string; readonly pin: string; readonly seenByOthers?: true };
}
export interface NewSite {
  readonly name: string;
  readonly zone: string;
  readonly dayStarts?: string;
}
export interface CreatedOrganisation {
  readonly organisation: string;
  readonly book: string;
  readonly sites: readonly string[];
  readonly administrator: string;
}

/**
 * A new business: its books, and the first person, who looks after the people and so lets in all others. Run as the owner, since the
 * service may not make books; persons and roles are entries like any other, written by the people they let in.
 */
export async function createOrganisation(
  owner: ClientBase,
  given: NewOrganisation,
  clock: Clock,
  hashes = new PinHash(),
): Promise<CreatedOrganisation> {
  const { pin } = given.administrator;
  if (!pinForm.test(pin) || isWeakPin(pin))
    throw new Error('The first administrator’s PIN is too easy to guess: take four to eight digits, no run, no year.');
  readAsTheWriterDoes(owner);
  const hash = await hashes.hash(pin, { at: 'elsewhere', place: 'here' });
  const organisation = uuidv7(clock.now());
  const [first] = given.sites;
  const book: BookRef = { organisation, id: uuidv7(clock.now()), type: 'organisation', zone: first.zone };
  const sites = given.sites.map((site) => ({ ...site, id: uuidv7(clock.now()), type: 'site' }));
  return inHouse(owner, organisation, async () => {
    await owner.query('INSERT INTO organisation (id, name, created_at) VALUES ($1, $2, $3)', [
      organisation,
      given.name,
      clock.now().toISOString(),
    ]);
    for (const b of [{ ...book, name: given.name, dayStarts: first.dayStarts }, ...sites]) {
      const values = [organisation, b.id, b.type, b.name, b.zone, b.dayStarts ?? '00:00'];
      await owner.query('INSERT INTO book (organisation, id, type, name, zone, day_starts) VALUES ($1, $2, $3, $4, $5, $6)', values);
    }
    const administrator = await firstPerson(owner, book, given.administrator.name, clock);
    const setBy = given.administrator.seenByOthers === true ? organisation : administrator;
    const credential = [organisation, administrator, hash, clock.now().toISOString(), setBy];
    await owner.query('INSERT INTO credential (organisation, person, hash, set_at, set_by) VALUES ($1, $2, $3, $4, $5)', credential);
    await recordPinSet(owner, { organisation, person: administrator, by: administrator }, clock);
    return { organisation, book: book.id, sites: sites.map((s) => s.id), administrator };
  });
}

function readAsTheWriterDoes(owner: ClientBase): void {
  for (const oid of [builtins.INT8, builtins.TIMESTAMPTZ, builtins.DATE, builtins.NUMERIC])
    owner.setTypeParser(oid, valueTypes.getTypeParser(oid));
}
