import { phrase } from '@bakehouse/records';
import { Link } from 'wouter';
import { mass, whole } from '../../shared/format';
import { formulasInUse } from '../../shared/in-force';
import { office } from '../../shared/office-paths';
import { SetUpLink } from '../../shared/set-up-link';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { Empty, LinkButton, Screen } from '../../ui';

/** The formulas in force. */
export function Formulas() {
  const { snapshot } = useTabletState();
  const formulas = formulasInUse(snapshot, useNow(60_000));
  return (
    <Screen title="Formulas" back={{ to: office.home, text: 'Office' }} actions={<LinkButton to={office.drafts}>Drafts</LinkButton>}>
      {formulas.length === 0 ? (
        <Empty>
          No formula is approved yet. The manager approves one, signed; then it can be begun at the table. <SetUpLink />
        </Empty>
      ) : (
        <ul className="cards">
          {formulas.map((f) => (
            <li key={f.id} className="card">
              <Link href={office.formula(f.id)} className="card-link">
                <strong>{f.name}</strong>
                <span>
                  {phrase(`formula.${f.type}`)}, version {f.number} · {mass(f.content.lines.reduce((n, l) => n + l.mg, 0))}
                  {f.content.products.length === 0
                    ? ''
                    : ` · ${whole(f.content.products.length)} ${f.content.products.length === 1 ? 'product' : 'products'}`}
                </span>
              </Link>
            </li>
          ))}
        </ul>
      )}
    </Screen>
  );
}
