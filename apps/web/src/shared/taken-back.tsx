import type { TakenBack as Back } from '@bakehouse/records';
import { takenBackText } from '@bakehouse/views';

/** Beside the words of a deviation: that its record was withdrawn, or what it says now. Nothing where the record still tells of it. */
export function TakenBack({ of }: { readonly of: Pick<Back, 'as' | 'says'> | null }) {
  const text = takenBackText(of);
  return text === null ? null : <strong className="taken-back">{text}</strong>;
}
