import type { InspectionView } from '@bakehouse/contracts';

/** One line for paper a book, and how to check it without trusting this computer. */
export function Seals({ seals }: { readonly seals: InspectionView['seals'] }) {
  return (
    <div className="cards wide">
      {seals.map((s) => (
        <div key={s.book} className="card">
          <h3>{s.name}</h3>
          <p className="sum">{s.line}</p>
          <details>
            <summary>How to check it, and what it shows</summary>
            <ul>
              {s.says.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
            <p className="faint">The seal as it left this computer:</p>
            <p className="seal">{s.note}</p>
            <p className="faint">The key that it is checked with:</p>
            <p className="seal">{s.verifierKey}</p>
          </details>
        </div>
      ))}
    </div>
  );
}
