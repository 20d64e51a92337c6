import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { office } from '../../../shared/office-paths';
import { StateWord } from '../../../ui';
import type { IntoRow } from './backward-ends';
import type { EndRow } from './end-row';

interface Props<Row> {
  readonly id: string;
  readonly rows: readonly Row[];
  readonly heights: ReadonlyMap<string, number>;
}

/** Where it went: the ends of the picture. */
export function WentTable({ id, rows, heights }: Props<EndRow>) {
  return (
    <Lines id={id} heads={['Where it went', 'Amount', 'By lots', 'How sure', 'Told']}>
      {rows.map((r) => (
        <Line key={r.id} r={r} heights={heights}>
          <td>
            {r.what} {r.detail === null ? null : <span className="faint">{r.detail}</span>}
          </td>
          <td className="amount">{r.amount}</td>
          <td>
            <ByLots lots={r.lots} />
          </td>
          <Sure r={r} />
          <td>{r.told === null ? null : <StateWord {...r.told}>{r.told.text}</StateWord>}</td>
        </Line>
      ))}
    </Lines>
  );
}

/** What went in: the ends of the picture backward. */
export function IntoTable({ id, rows, heights }: Props<IntoRow>) {
  return (
    <Lines id={id} heads={['What went in', 'Lot', 'Supplier', 'Received', 'Amount', 'How sure']}>
      {rows.map((r) => (
        <Line key={r.id} r={r} heights={heights}>
          <td>
            <Link href={office.lot(r.lot)}>{r.what}</Link> {r.detail === null ? null : <span className="faint">{r.detail}</span>}
            {r.told === null ? null : (
              <>
                {' '}
                <StateWord {...r.told}>{r.told.text}</StateWord>
              </>
            )}
          </td>
          <td className="code">{r.code ?? '–'}</td>
          <td>
            {r.supplier ?? '–'} {r.note === null ? null : <span className="faint">note {r.note}</span>}
          </td>
          <td>
            {r.received} {r.dates === null ? null : <span className="faint">{r.dates}</span>}
          </td>
          <td className="amount">{r.amount}</td>
          <Sure r={r} />
        </Line>
      ))}
    </Lines>
  );
}

function Lines({ id, heads, children }: { readonly id: string; readonly heads: readonly string[]; readonly children: ReactNode }) {
  return (
    <table id={id} className="flow-lines">
      <thead>
        <tr>
          {heads.map((h) => (
            <th key={h} scope="col" className={h === 'Amount' ? 'amount' : ''}>
              {h}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>{children}</tbody>
    </table>
  );
}

interface LineProps {
  readonly r: EndRow;
  readonly heights: ReadonlyMap<string, number>;
  readonly children: ReactNode;
}

const Line = ({ r, heights, children }: LineProps) => (
  <tr data-end={r.id} className={r.look} style={{ height: Math.max(36, (heights.get(r.id) ?? 0) + 6) }}>
    {children}
  </tr>
);

const Sure = ({ r: { sure } }: { readonly r: EndRow }) => (
  <td>
    <span className={`sure ${sure === 'not known' ? 'unknown' : sure}`}>{sure}</span>
  </td>
);

function ByLots({ lots }: Pick<EndRow, 'lots'>) {
  const link = (l: EndRow['lots'][number]) => (
    <Link key={l.id} href={office.lot(l.id)} className="code">
      {l.text}
    </Link>
  );
  const [only, ...more] = lots;
  if (only === undefined) return '–';
  if (more.length === 0) return link(only);
  return (
    <details>
      <summary>{lots.length} lots</summary>
      {lots.map(link)}
    </details>
  );
}
