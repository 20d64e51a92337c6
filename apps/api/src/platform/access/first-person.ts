import { permission, type SentEnvelope } from '@bakehouse/kernel';
import { kindOf } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import type { Clock } from '../clock/index.js';
import { randomToken, tokenHash, uuidv7 } from '../ids/index.js';
import { inputOf } from '../ledger/content.js';
import { ownEntry } from '../ledger/own-entry.js';
import type { BookRef } from '../ledger/types.js';
import { writerInside } from '../ledger/writer-inside.js';
import { keepSignature } from './signatures.query.js';

const signedForMs = 120_000;

/** The first person joins and becomes administrator by entries of their own, signed by the PIN that was given for them, inside the transaction that is open. */
export async function firstPerson(owner: ClientBase, book: BookRef, name: string, clock: Clock): Promise<string> {
  const person = uuidv7(clock.now());
  const writer = writerInside(owner, clock);
  const all = new Set(permission.options);
  const role = { person, role: 'administrator', site: null, until: null } as const;
  const entries = [
    ownEntry({ kind: 'person-joined', payload: {}, words: { name }, id: person }, clock.now()),
    ownEntry({ kind: 'role-given', payload: role, after: [person] }, clock.now()),
  ];
  const signed: SentEnvelope[] = [];
  for (const entry of entries) signed.push(await sign(owner, book.organisation, person, entry, clock));
  const results = await writer.record(book, { person, session: null, device: null, permissions: all, whenSigned: all }, signed);
  const refused = results.find((r) => r.as !== 'recorded');
  if (refused) throw new Error(`The first administrator could not be recorded: ${JSON.stringify(refused)}`);
  return person;
}

async function sign(owner: ClientBase, organisation: string, person: string, entry: SentEnvelope, clock: Clock): Promise<SentEnvelope> {
  const [input, meaning] = [inputOf(entry), kindOf(entry)?.signed];
  if (!input || typeof meaning !== 'string') return entry; // the writer says why it is refused
  const [signature, now] = [randomToken(), clock.now()];
  await keepSignature(owner, organisation, {
    tokenHash: tokenHash(signature),
    person,
    inputHash: input.hash,
    meaning,
    signedAt: now.toISOString(),
    expiresAt: new Date(now.getTime() + signedForMs).toISOString(),
  });
  return { ...entry, send: { signature } };
}
