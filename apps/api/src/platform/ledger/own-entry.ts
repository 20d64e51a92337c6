import { newEnvelope, type SentEnvelope } from '@bakehouse/kernel';
import { kindNamed, type KindName, type NewEntryOf } from '@bakehouse/records';
import { salt, uuidv7 } from '../ids/index.js';

/** What the service says about an entry of its own: the id where it is known beforehand, and what it comes after. */
type OwnEntry<K extends KindName> = Pick<NewEntryOf<K>, 'kind' | 'payload' | 'words'> & {
  readonly id?: string;
  readonly after?: readonly string[];
};

/** An entry that the service writes itself, in the name of the person who asked. It happens now, by the clock that records it. */
export function ownEntry<K extends KindName>({ kind, payload, words, id, after }: OwnEntry<K>, now: Date): SentEnvelope {
  return newEnvelope(
    {
      id: id ?? uuidv7(now),
      kind,
      version: kindNamed(kind).version,
      payload,
      at: now.toISOString(),
      doneBy: null,
      device: { id: null, seq: 0, clockErrorMs: 0 },
      after,
      words,
    },
    salt,
  );
}
