import type { ReactTable } from '@tanstack/react-table';
import type { Column, features } from './columns';

interface Props<T extends object> {
  readonly table: ReactTable<typeof features, T>;
  readonly columns: readonly Column<T>[];
  readonly keys: boolean;
}

const said = { asc: 'ascending', desc: 'descending' } as const;

/** The heads are keys: pressed once they put the rows in rising order, again in falling, a third time as the list came. */
export function Head<T extends object>({ table, columns, keys }: Props<T>) {
  return (
    <thead role="rowgroup">
      {table.getHeaderGroups().map((group) => (
        <tr role="row" key={group.id}>
          {group.headers.map((header, i) => {
            const sorted = header.column.getIsSorted();
            const { head, look, spare } = columns[i] ?? { head: '' };
            return (
              <th
                role="columnheader"
                key={header.id}
                scope="col"
                className={look === 'figure' ? look : undefined}
                data-spare={spare}
                aria-sort={sorted === false ? 'none' : said[sorted]}
              >
                <button type="button" className="order" onClick={() => header.column.toggleSorting()}>
                  {head}
                  <span className={`sorted ${sorted === false ? '' : sorted}`} aria-hidden="true" />
                </button>
              </th>
            );
          })}
          {keys ? (
            <th role="columnheader" scope="col" className="keys">
              <span className="unseen">Keys</span>
            </th>
          ) : null}
        </tr>
      ))}
    </thead>
  );
}
