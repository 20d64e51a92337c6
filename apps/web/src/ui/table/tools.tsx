import { useId } from 'react';
import { Button } from '../button';
import { saveFile } from '../save-file';

interface Props {
  readonly label: string;
  readonly find: string;
  readonly words: string;
  readonly onWords: (words: string) => void;
  readonly page: number;
  readonly pages: number;
  readonly toPage: (page: number) => void;
  readonly found: number;
  readonly from: number;
  readonly to: number;
  readonly of: number;
  readonly onDown: () => void;
  readonly heads: readonly string[];
  readonly cells: () => readonly (readonly string[])[];
}

const whole = new Intl.NumberFormat('en-GB');

/** Above a table: what is looked for, how many there are, the pages, and what is shown as a file. */
export function Tools({ label, find, words, onWords, page, pages, toPage, found, from, to, of, onDown, heads, cells }: Props) {
  const id = useId();
  const save = async (): Promise<void> => {
    const { csvOf } = await import('./csv');
    saveFile(
      new Blob([csvOf(heads, cells())], { type: 'text/csv;charset=utf-8' }),
      `${label.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')}.csv`,
    );
  };
  return (
    <div className="table-tools">
      <div className="table-find">
        <label htmlFor={id}>{find}</label>
        <input
          id={id}
          type="search"
          value={words}
          autoComplete="off"
          onChange={(event) => onWords(event.target.value)}
          onKeyDown={(event) => {
            if (event.key !== 'ArrowDown') return;
            event.preventDefault();
            onDown();
          }}
        />
      </div>
      <p role="status" className="table-count">
        {pages > 1 ? `${whole.format(from + 1)} to ${whole.format(to)} of ` : ''}
        {found === of ? whole.format(of) : `${whole.format(found)} of ${whole.format(of)}`}
      </p>
      {pages > 1 ? (
        <div className="table-pages" role="group" aria-label="Pages">
          <Button disabled={page === 0} onClick={() => toPage(page - 1)}>
            Previous
          </Button>
          <Button disabled={page >= pages - 1} onClick={() => toPage(page + 1)}>
            Next
          </Button>
        </div>
      ) : null}
      <Button look="quiet" disabled={found === 0} label={`Save as CSV: ${label}`} onClick={() => void save()}>
        Save as CSV
      </Button>
    </div>
  );
}
