import type { SavedEntry } from '@bakehouse/offline';
import { changesOf, nameOf, type Lookup } from '@bakehouse/views';
import { fieldsOf } from '../../shared/night/fields-of';

/** The first record of a chain of corrections: the one that a later one names. */
export const rootOf = ({ id, entry }: SavedEntry): string => (typeof entry['corrects'] === 'string' ? entry['corrects'] : id);

const ofChain = (recent: readonly SavedEntry[], root: string): SavedEntry[] =>
  recent.filter((e) => rootOf(e) === root && e.fate.as !== 'refused').sort((a, b) => a.seq - b.seq);

/** The version of a record that holds now, as far as this tablet typed it; undefined where it was taken back or is not here. */
export function newestOf(recent: readonly SavedEntry[], root: string): SavedEntry | undefined {
  const last = ofChain(recent, root).at(-1);
  return last?.entry['kind'] === 'entry-withdrawn' ? undefined : last;
}

export const isWithdrawn = (recent: readonly SavedEntry[], e: SavedEntry): boolean =>
  e.entry['kind'] !== 'entry-withdrawn' && ofChain(recent, rootOf(e)).some((l) => l.seq > e.seq && l.entry['kind'] === 'entry-withdrawn');

/** What a correction changed against what it replaces: “940 °C → 94 °C”, “pieces 20 → 19”. Nothing where the earlier one is not on this tablet. */
export function whatChanged(recent: readonly SavedEntry[], e: SavedEntry, lookup: Lookup): string[] {
  if (typeof e.entry['corrects'] !== 'string') return [];
  const before = ofChain(recent, rootOf(e)).findLast((b) => b.seq < e.seq && b.entry['kind'] === e.entry['kind']);
  if (!before) return [];
  const changes = changesOf(keyed(before.entry['payload']), keyed(e.entry['payload']), (id) => nameOfAnything(lookup, id));
  return changes.map(({ path, before: was, after }) => {
    const where = path.filter((step) => step !== 'value' && step !== 'quantity' && step !== 'figure' && step !== 'lines').join(', ');
    return `${where === '' ? '' : `${where} `}${was} → ${after}`;
  });
}

/** Lines that nothing tells apart by itself are told apart by the lot or product that they are about, or by their place. */
function keyed(content: unknown): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(fieldsOf(content)).map(([key, value]) => {
      if (!Array.isArray(value) || !value.every((one) => typeof one === 'object')) return [key, value];
      const lines = value.map((one, i) => {
        const line = fieldsOf(one);
        const of = [line['material'], line['lot'], Array.isArray(line['lots']) ? line['lots'][0] : null, line['run']];
        return { ...line, key: of.find((id) => typeof id === 'string') ?? String(i + 1) };
      });
      return [key, lines];
    }),
  );
}

/** The name of whatever has this id here: food, a place, a customer. */
export function nameOfAnything(lookup: Lookup, id: string): string | null {
  const types = ['make', 'run', 'batch', 'load', 'lot', 'place', 'instrument'] as const;
  const found = types.map((type) => nameOf(lookup, type, id)).find((name) => name !== null);
  const { party, specification, person } = lookup.snapshot;
  return (
    found ??
    party.find((p) => p.party === id)?.name ??
    specification.find((s) => s.material === id)?.name ??
    person.find((p) => p.id === id)?.name ??
    null
  );
}
