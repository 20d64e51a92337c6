import type { Wrong } from '@bakehouse/views';

/** As many lines as somebody looks through; the rest is counted. */
const most = 200;

export function WrongLines({ wrong }: { readonly wrong: readonly Wrong[] }) {
  if (wrong.length === 0) return null;
  return (
    <>
      <h3>Wrong, and left out until it is put right</h3>
      <ul className="setup-missing">
        {wrong.slice(0, most).map(({ line, column, says }) => (
          <li key={`${line} ${column} ${says}`}>
            Line {line}
            {column === null ? '' : `, column ${column}`}: {says}.
          </li>
        ))}
        <More of={wrong.length} />
      </ul>
    </>
  );
}

export function OfferedLines({
  title,
  of,
}: {
  readonly title: string;
  readonly of: readonly { readonly line: number; readonly name: string; readonly says: string }[];
}) {
  if (of.length === 0) return null;
  return (
    <details className="section" open={of.length <= 20}>
      <summary>
        {title}: {of.length}
      </summary>
      <table className="lines">
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col">Name</th>
            <th scope="col">What it says</th>
          </tr>
        </thead>
        <tbody>
          {of.slice(0, most).map(({ line, name, says }) => (
            <tr key={line}>
              <td>{line}</td>
              <td>{name}</td>
              <td>{says}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {of.length > most ? <p>and {of.length - most} more</p> : null}
    </details>
  );
}

export function Existing({ of }: { readonly of: readonly { readonly line: number; readonly name: string }[] }) {
  if (of.length === 0) return null;
  return (
    <details className="section">
      <summary>There already, and left as they are: {of.length}</summary>
      <p>
        {of
          .slice(0, most)
          .map(({ name }) => name)
          .join(', ')}
        {of.length > most ? ` and ${of.length - most} more` : ''}
      </p>
    </details>
  );
}

export const LeftOut = ({ headings }: { readonly headings: readonly string[] }) =>
  headings.length === 0 ? null : <p>Columns that are not known and are left out: {headings.join(', ')}.</p>;

const More = ({ of }: { readonly of: number }) => (of > most ? <li>and {of - most} more</li> : null);
