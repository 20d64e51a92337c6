import type { EndRow } from './end-row';
import { commonNames, labelOf } from './labels';
import { barWidth, endsAlone, layoutOf } from './layout';
import type { Flows, Layout, BandLook, Sizes } from './model';
import { measureOf, scaleOf } from './scale';
import { amountText } from '../../../shared/trace/words';

export interface Paper {
  readonly flows: Flows;
  readonly rows: readonly EndRow[];
  readonly title: string;
  readonly says: string;
  readonly sums: readonly string[];
  readonly caution: string;
  readonly zone: string;
  readonly mirrored: boolean;
}

const namesWidth = 460;
const margin = 24;
const under = 64;
const text = 'font-family="\'Atkinson Hyperlegible Next\', sans-serif" font-size="12"';
const code = 'font-family="\'Atkinson Hyperlegible Mono\', monospace" font-size="12"';
const title = 'font-family="\'Bricolage Grotesque\', sans-serif" font-size="20" font-weight="650"';

/** Black on white, so that a photocopier keeps it: certain is solid, possible dashed, on hold hatched and named, not known dotted. */
const looks: Readonly<Record<BandLook, string>> = {
  certain: 'fill="#d4d4d4" stroke="#555" stroke-width="0.5"',
  possible: 'fill="none" stroke="#000" stroke-width="1" stroke-dasharray="5 3"',
  gate: 'fill="url(#held)" stroke="#000" stroke-width="1"',
  unknown: 'fill="none" stroke="#000" stroke-width="1" stroke-dasharray="1 3"',
};

const plain = (words: string): string =>
  words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
const at = (x: number, y: number): string => `x="${x.toFixed(1)}" y="${y.toFixed(1)}"`;
const line = (x: number, y: number, as: string, words: string): string => `<text ${at(x, y)} ${as}>${plain(words)}</text>`;

/** The picture with its ends named, as a file of its own. Pure. */
export function svgFile(of: Paper): string {
  const scale = scaleOf(of.flows, 1);
  const sizes: Sizes = { scale, column: 150, start: 4, slot: 34, top: 40, mirrored: of.mirrored };
  const layout = layoutOf(of.flows, endsAlone(of.flows, sizes), sizes);
  const width = layout.width + namesWidth + 2 * margin;
  const foot = [
    ...of.sums,
    `${of.says}${scaleText(scale, of.flows)}. Solid: certain. Dashed: possible. Hatched: on hold. Dotted: not known.`,
    of.caution,
  ];
  const height = under + layout.height + 40 + foot.length * 18;
  const left = margin + (of.mirrored ? namesWidth : 0);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    '<defs><pattern id="held" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">',
    '<path d="M0 0V6" stroke="#000" stroke-width="1.5"/></pattern></defs>',
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    line(margin, 36, title, of.title),
    `<g transform="translate(${left} ${under})">`,
    ...layout.bands.map((b) => `<path d="${b.path}" ${looks[b.flow.look]}/>`),
    ...layout.lots.map((l) => `<rect ${at(l.x, l.top)} width="${barWidth}" height="${l.height.toFixed(1)}" fill="#000"/>`),
    ...lotTexts(of, layout),
    '</g>',
    ...endTexts(of, layout),
    ...foot.map((words, i) => line(margin, under + layout.height + 36 + i * 18, text, words)),
    '</svg>',
  ].join('\n');
}

function scaleText(scale: number, { unit }: Flows): string {
  const measure = measureOf(scale);
  return measure === null ? '' : `; ${amountText(measure.amount, unit)} is ${measure.width.toFixed(1)} wide`;
}

function lotTexts({ flows, zone, mirrored }: Paper, layout: Layout): string[] {
  const names = commonNames(flows);
  const places = new Map(layout.lots.map((p) => [p.id, p]));
  return flows.lots.flatMap((l) => {
    const p = places.get(l.id);
    if (p === undefined) return [];
    const { short } = labelOf(l, l.layer === 0 ? null : (names.get(l.layer) ?? null), flows.unit, zone);
    const words = `${short}${l.held ? ', on hold' : ''}`;
    const as = `${l.code === null ? text : code}${mirrored ? ' text-anchor="end"' : ''}`;
    return [line(mirrored ? p.x - 4 : p.x + barWidth + 4, p.top + p.height / 2 + 4, as, words)];
  });
}

function endTexts({ rows, mirrored }: Paper, layout: Layout): string[] {
  const places = new Map(layout.ends.map((p) => [p.id, p]));
  const left = mirrored ? margin : margin + layout.width + 12;
  return rows.flatMap((r) => {
    const p = places.get(r.id);
    if (p === undefined) return [];
    const y = under + p.top + p.height / 2;
    const told = r.told === null ? '' : `, ${r.told.text}`;
    return [line(left, y - 2, text, `${r.what}: ${r.amount}`), line(left, y + 12, text, `${r.sure}${told}`)];
  });
}
