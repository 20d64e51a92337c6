import { useId, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { amountText } from '../../../shared/trace/words';
import { office } from '../../../shared/office-paths';
import { Button, Mark } from '../../../ui';
import type { EndRow } from './end-row';
import { barWidth, endsAlone, layoutOf, needs } from './layout';
import { commonNames, labelOf } from './labels';
import { Legend } from './legend';
import type { Flows, Layout, Sizes } from './model';
import { measureOf, scaleOf, zooms } from './scale';
import { useBoxes } from './use-boxes';

interface Props {
  readonly flows: Flows;
  readonly rows: readonly EndRow[];
  readonly zone: string;
  readonly title: string;
  /** What the width of a band says. */
  readonly widthSays: string;
  readonly mirrored: boolean;
  /** The table, whose lines are at least so high as their bands are wide. */
  readonly table: (id: string, heights: ReadonlyMap<string, number>) => ReactNode;
}

/** From this width on the table stands beside the picture and every band ends in its line; below it under it, with the lines named in the picture. */
const besideFrom = 1080;
const tableWidth = 640;
const namesWidth = 300;

/** The picture of a trace and its table, as one. The table is the picture's text. */
export function TracePicture({ flows, rows, zone, title, widthSays, mirrored, table }: Props) {
  const id = useId();
  const [zoomed, setZoomed] = useState<number>(zooms.indexOf(1));
  const { frame, width, lines } = useBoxes();
  const zoom = zooms[zoomed] ?? 1;
  const scale = scaleOf(flows, zoom);
  const beside = width >= besideFrom;
  const columns = flows.lots.reduce((n, l) => Math.max(n, l.layer + 1), 1);
  const room = beside ? width - tableWidth - 24 : Math.max(width, 320) - namesWidth;
  const sizes: Sizes = {
    scale,
    start: 4,
    slot: window.matchMedia('(any-pointer: coarse)').matches ? 50 : 34,
    top: 40,
    mirrored,
    column: Math.max(116, (room - 4) / columns) * zoom,
  };
  const boxes = beside ? lines : endsAlone(flows, sizes);
  const layout = layoutOf(flows, boxes, sizes);
  const measure = measureOf(scale);
  return (
    <div className="flow">
      <div className="flow-top">
        <Legend flows={flows} />
        <span className="flow-scale">
          {widthSays}
          {measure === null ? null : (
            <span className="flow-measure">
              <span style={{ height: measure.width }} /> {amountText(measure.amount, flows.unit)}
            </span>
          )}
        </span>
        <span className="flow-zoom">
          <Button label="Smaller picture" disabled={zoomed === 0} onClick={() => setZoomed(zoomed - 1)}>
            −
          </Button>
          <Button label="Larger picture" disabled={zoomed === zooms.length - 1} onClick={() => setZoomed(zoomed + 1)}>
            +
          </Button>
        </span>
      </div>
      <div ref={frame} className={`flow-frame ${beside ? 'beside' : ''} ${mirrored ? 'mirrored' : ''}`}>
        <div className="flow-scroll" tabIndex={0} role="group" aria-label="The picture; scroll it sideways">
          <div className="flow-plane" style={{ width: layout.width + (beside ? 0 : namesWidth), height: layout.height + 8 }}>
            <div className="flow-drawn" style={{ left: mirrored && !beside ? namesWidth : 0 }}>
              <Drawing layout={layout} title={title} describedBy={`${id}-table`} />
              <Heads flows={flows} sizes={sizes} width={layout.width} />
              <Lots flows={flows} layout={layout} sizes={sizes} zone={zone} />
            </div>
            {beside ? null : <EndNames rows={rows} layout={layout} mirrored={mirrored} />}
          </div>
        </div>
        <div className="flow-table">{table(`${id}-table`, needs(flows, scale))}</div>
      </div>
    </div>
  );
}

/** The drawing itself: what it says stands in the table. */
function Drawing({ layout, title, describedBy }: { readonly layout: Layout; readonly title: string; readonly describedBy: string }) {
  return (
    <svg role="img" aria-label={title} aria-describedby={describedBy} width={layout.width} height={layout.height + 8}>
      {layout.bands.map((b) => (
        <path
          key={b.id}
          d={b.path}
          className={`flow-band ${b.flow.look} ${b.width < 2 ? 'thin' : ''}`}
          data-from={b.flow.from}
          data-to={b.flow.to}
        />
      ))}
      {layout.lots.map((l) => (
        <rect key={l.id} className="flow-bar" x={l.x} y={l.top} width={barWidth} height={l.height} rx={2} />
      ))}
    </svg>
  );
}

/** What the lots of each column are. */
function Heads({ flows, sizes, width }: { readonly flows: Flows; readonly sizes: Sizes; readonly width: number }) {
  const counts = new Map<number, number>();
  for (const l of flows.lots) counts.set(l.layer, (counts.get(l.layer) ?? 0) + Math.max(1, l.folded));
  return [...commonNames(flows)].map(([layer, name]) => {
    const x = sizes.start + layer * sizes.column;
    const place = sizes.mirrored ? { right: x } : { left: x };
    const count = counts.get(layer) ?? 1;
    return (
      <span key={layer} className="flow-head" style={{ ...place, maxWidth: Math.min(sizes.column - 8, width) }}>
        {layer === 0 ? 'Lot' : `${name ?? 'Several'}${count > 1 ? `, ${count}` : ''}`}
      </span>
    );
  });
}

interface LotsProps {
  readonly flows: Flows;
  readonly layout: Layout;
  readonly sizes: Sizes;
  readonly zone: string;
}

/** Each lot with its label, which a keyboard reaches and which opens the lot. */
function Lots({ flows, layout, sizes, zone }: LotsProps) {
  const names = commonNames(flows);
  const at = new Map(layout.lots.map((p) => [p.id, p]));
  return flows.lots.map((l) => {
    const p = at.get(l.id);
    if (p === undefined) return null;
    const { short, all } = labelOf(l, l.layer === 0 ? null : (names.get(l.layer) ?? null), flows.unit, zone);
    const place = sizes.mirrored ? { right: layout.width - p.x + 3 } : { left: p.x + barWidth + 3 };
    const style = { ...place, top: p.top + p.height / 2, maxWidth: sizes.column - barWidth - 8 };
    const text = (
      <>
        {l.held ? <Mark shape="gate" tone="bad" /> : null}
        <span className={l.code === null ? '' : 'code'}>{short}</span>
      </>
    );
    if (l.lot === null || l.layer === 0)
      return (
        <span key={l.id} className="flow-lot" style={style}>
          {text}
        </span>
      );
    return (
      <Link key={l.id} href={office.lot(l.lot)} className="flow-lot" style={style} aria-label={all} title={all}>
        {text}
      </Link>
    );
  });
}

/** Where the table stands under the picture, its lines are named here as well. */
function EndNames({ rows, layout, mirrored }: { readonly rows: readonly EndRow[]; readonly layout: Layout; readonly mirrored: boolean }) {
  const at = new Map(layout.ends.map((e) => [e.id, e]));
  return rows.map((r) => {
    const p = at.get(r.id);
    if (p === undefined) return null;
    const style = { [mirrored ? 'left' : 'right']: 0, top: p.top, height: p.height, width: namesWidth - 8 };
    return (
      <span key={r.id} className={`flow-end ${r.look}`} style={style} aria-hidden="true">
        <span>
          {r.look === 'gate' ? <Mark shape="gate" tone="bad" /> : null}
          {r.what}
        </span>
        <b>{r.amount}</b>
      </span>
    );
  });
}
