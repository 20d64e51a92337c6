import { formulaView } from '@bakehouse/contracts';
import type { Row } from '@bakehouse/records';
import { mass } from '../../shared/format';
import { percentText } from './text';
import { Shown, useLoaded } from '../../shared/use-loaded';
import { Section } from '../../ui';

/** The formula with what its preferments are made of in place of them: percentages of all flour, theirs counted. */
export function TotalFormula({ version: { formula, number } }: { readonly version: Row<'formulaVersion'> }) {
  const loaded = useLoaded('/formulas/{formula}', formulaView, { params: { path: { formula }, query: { number } } });
  return (
    <Section title="The total formula">
      <Shown of={loaded}>
        {({ total }) => (
          <>
            <p className="faint">
              {total.says}
              {total.prefermentedFlourPercent === null
                ? ''
                : ` ${percentText(total.prefermentedFlourPercent)} of all flour is prefermented.`}
            </p>
            <table className="lines">
              <thead>
                <tr>
                  <th scope="col">Material</th>
                  <th scope="col">Of all flour</th>
                  <th scope="col">Amount</th>
                  <th scope="col">Of it in what is made here</th>
                </tr>
              </thead>
              <tbody>
                {total.lines.map((l) => (
                  <tr key={l.material}>
                    <th scope="row">{l.name}</th>
                    <td className="amount">{percentText(l.percent)}</td>
                    <td className="amount">{mass(l.mg)}</td>
                    <td className="amount">{l.prefermentMg === 0 ? '' : mass(l.prefermentMg)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </>
        )}
      </Shown>
    </Section>
  );
}
