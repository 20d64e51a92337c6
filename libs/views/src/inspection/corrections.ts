import type { InspectedCorrection } from '@bakehouse/contracts';
import { dayText, differences, grouped, quantityText, wallClock } from '@bakehouse/kernel';
import type { VersionRow } from './rows.js';

type Version = InspectedCorrection['versions'][number];
type NameOf = (id: string) => string | null;

const uuid = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
const instant = /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d)$/;

/**
 * Corrected and withdrawn records: every version as recorded, with the reason of each later one. Times are in the site's zone.
 */
export function correctionsOf(rows: readonly VersionRow[], nameOf: NameOf, personOf: NameOf, zone: string): InspectedCorrection[] {
  const sayOf: NameOf = (text) => nameOf(text) ?? personOf(text) ?? timeText(text, zone);
  return [...grouped(rows, (row) => row.root)].map(([root, versions]) => ({
    root,
    kind: versions[0]?.kind ?? '',
    versions: versions.map((v, i) =>
      versionOf(
        v,
        versions.slice(0, i).findLast((b) => b.kind === v.kind),
        sayOf,
        personOf,
      ),
    ),
  }));
}

function versionOf(v: VersionRow, before: VersionRow | undefined, sayOf: NameOf, personOf: NameOf): Version {
  const withdrawn = v.kind === 'entry-withdrawn';
  return {
    entry: v.entry,
    at: v.input?.at ?? null,
    recordedAt: v.recordedAt,
    by: personOf(v.person),
    doneBy: v.input?.doneBy ? personOf(v.input.doneBy) : null,
    withdrawn,
    reason: v.reason,
    summary: withdrawn ? [] : summaryOf(v.input?.payload, sayOf),
    content: withdrawn ? null : (v.input?.payload ?? null),
    changes: withdrawn || !before ? [] : changesOf(comparable(before), comparable(v), sayOf),
  };
}

/** What differs between two versions of a record, for a person to read: where, what was there, and what is. */
export function changesOf(before: object, after: object, sayOf: (text: string) => string | null): Version['changes'] {
  return differences(withUnits(before), withUnits(after)).map(({ path, before: was, after: is }) => ({
    path: path.map((step) => stepText(step, sayOf)),
    before: valueText(was, sayOf),
    after: valueText(is, sayOf),
  }));
}

const comparable = ({ input }: VersionRow): object => ({
  occurredAt: input?.at ?? null,
  doneBy: input?.doneBy ?? null,
  content: input?.payload ?? null,
});

/** Content with each figure and its unit in one: a corrected figure shows its unit. */
function withUnits(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withUnits);
  if (typeof value !== 'object' || value === null) return value;
  if ('figure' in value && 'unit' in value) {
    const { figure, unit, ...rest } = value;
    const text = quantityText(String(figure), String(unit));
    return Object.keys(rest).length === 0 ? text : { figure: text, ...rest };
  }
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, withUnits(inner)]));
}

/** An instant as the site's clock showed it, with the offset: where the clocks went back, nothing else tells one time from the other. */
function timeText(text: string, zone: string): string | null {
  const ms = instant.test(text) ? Date.parse(text) : Number.NaN;
  if (Number.isNaN(ms)) return null;
  const { day, time, offset } = wallClock(new Date(ms).toISOString(), zone);
  return `${dayText(day)} ${time} ${offset}`;
}

/** A value for a person to read: names for ids, site time for instants, anything else unchanged. */
function valueText(value: unknown, nameOf: NameOf): string {
  if (value === undefined || value === null) return 'nothing';
  if (typeof value === 'string') return nameOf(value) ?? value;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' ? String(value) : JSON.stringify(value);
}

/** A step of the path to a change: a field in words, or the name that identifies a list item; a second item with that name is “… (2)”. */
function stepText(step: string, nameOf: NameOf): string {
  const [, id, again = ''] = /^([0-9a-f-]{36})( \(\d+\))?$/.exec(step) ?? [];
  return id === undefined ? wordsOf(step) : `${nameOf(id) ?? id}${again}`;
}

/** Content in lines for a person: ids by name or omitted, empty fields omitted. The full content is beside it. */
function summaryOf(recorded: unknown, nameOf: NameOf): string[] {
  const content = withUnits(recorded);
  if (typeof content !== 'object' || content === null) return [];
  return Object.entries(content).flatMap(([key, value]) =>
    Array.isArray(value)
      ? value.map((item, i) => `${wordsOf(key)} ${i + 1}: ${inline(item, nameOf)}`)
      : [inline(value, nameOf)].filter((text) => text !== '').map((text) => `${wordsOf(key)}: ${text}`),
  );
}

function inline(value: unknown, nameOf: NameOf): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'string') return nameOf(value) ?? (uuid.test(value) ? '' : value);
  if (typeof value !== 'object') return valueText(value, nameOf);
  if (Array.isArray(value))
    return value
      .map((item) => inline(item, nameOf))
      .filter((text) => text !== '')
      .join('; ');
  return Object.entries(value)
    .map(([key, inner]) => [wordsOf(key), inline(inner, nameOf)])
    .filter(([, text]) => text !== '')
    .map(([key, text]) => `${key} ${text}`)
    .join(', ');
}

/** `codeState` → `code state`. */
const wordsOf = (key: string): string => key.replace(/([A-Z])/g, ' $1').toLowerCase();

/** Every id in the corrected records, to look up its name. */
export function idsIn(rows: readonly Pick<VersionRow, 'input'>[]): string[] {
  const found = new Set<string>();
  const walk = (value: unknown): void => {
    if (typeof value === 'string') {
      if (uuid.test(value)) found.add(value);
    } else if (typeof value === 'object' && value !== null) Object.values(value).forEach(walk);
  };
  for (const row of rows) walk(row.input);
  return [...found];
}
