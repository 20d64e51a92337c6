import type { InspectedReading, InspectionView } from '@bakehouse/contracts';
import { dayText, observedText, spanText } from '@bakehouse/kernel';
import { limitText } from '@bakehouse/records';
import { wallTime } from '../../platform/clock/index.js';
import { cell, inShort, lines, measuredText, strong, verdictText, type Column, type Node } from '../layout/index.js';

/** The input of every section of the pack. */
export interface Pack {
  readonly view: InspectionView;
  readonly printedAt: string;
  readonly printedBy: string | null;
}

type Happened = Pick<InspectedReading, 'at' | 'precision' | 'until'>;
type Event = Happened & Pick<InspectedReading, 'recordedAt' | 'doneBy' | 'recordedBy'>;

export const timeOf = ({ view }: Pack, at: string): string => wallTime(at, view.site.zone);

/** When it happened, with how surely that is known where it is not exact. */
export function happenedText({ view }: Pack, t: Happened): string {
  const how = t.precision === 'exact' || t.precision === null ? '' : `${inShort('precision', t.precision)} `;
  return `${how}${spanText(t, view.site.zone, wallTime)}`;
}

/** A record made later than this after the event says so. */
const soonMinutes = 10;

/** When it happened and who did it; where they differ, when it was recorded and by whom. */
export function when(pack: Pack, t: Event): Node {
  const late = t.recordedAt !== null && Date.parse(t.recordedAt) - Date.parse(t.at) > soonMinutes * 60_000;
  const other = t.recordedBy !== null && t.recordedBy !== t.doneBy;
  return lines([
    happenedText(pack, t),
    t.doneBy ?? 'name withheld',
    ...(late && t.recordedAt !== null
      ? [cell(`recorded ${timeOf(pack, t.recordedAt)}${other ? ` by ${t.recordedBy}` : ''}`, { style: 'cell', italics: true })]
      : other
        ? [cell(`recorded by ${t.recordedBy}`, { style: 'cell', italics: true })]
        : []),
  ]);
}

export const whenColumn = <T extends Event>(pack: Pack, width = 100): Column<T> => ({
  title: 'When, who',
  width,
  of: (row) => when(pack, row),
});

/** One line for each reading: what was measured, the value, the limit, the verdict in words. */
export function readingLine(pack: Pack, r: InspectedReading): Node {
  const limit = r.limit === null ? '' : ` (${limitText(r.limit)})`;
  return {
    style: 'cell',
    text: [
      `${measuredText(r.parameter, r.measured)}: `,
      { text: observedText(r), bold: true },
      `${limit}: `,
      verdictText(r, (at) => timeOf(pack, at)),
      `${r.instrument === null ? '' : `, ${r.instrument}`}${r.corrected ? ', CORRECTED: see Corrections' : ''}, ${happenedText(pack, r)}${r.doneBy === null ? '' : `, ${r.doneBy}`}`,
      r.note === null ? '' : ` “${r.note}”`,
    ],
  };
}

export const readingLines = (pack: Pack, readings: readonly InspectedReading[]): Node =>
  readings.length === 0 ? cell('none', { style: 'cell', italics: true }) : lines(readings.map((r) => readingLine(pack, r)));

export const productsText = (products: readonly { readonly name: string; readonly pieces: number }[]): string =>
  products.map((p) => `${p.pieces} × ${p.name}`).join(', ');

export const datesText = (dates: { readonly bestBefore: string | null; readonly useBy: string | null }): string =>
  [
    ...(dates.useBy === null ? [] : [`use by ${dayText(dates.useBy)}`]),
    ...(dates.bestBefore === null ? [] : [`best before ${dayText(dates.bestBefore)}`]),
  ].join(', ');

export const named = (name: string | null): Node => strong(name ?? 'name not known');
