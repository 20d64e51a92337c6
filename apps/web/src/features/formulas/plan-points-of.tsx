import { phrase, type PlanContent, planInForce, pointsFor, validationOf } from '@bakehouse/records';
import { validationText } from '@bakehouse/views';
import { limitText } from '../../shared/format';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { Empty } from '../../ui';

const steps = [
  'mix',
  'rest',
  'prove',
  'retard',
  'bake',
  'cook',
  'cool',
  'freeze',
  'finish',
  'pack',
] as const satisfies readonly PlanContent['points'][number]['step'][];

interface Props {
  readonly formula: string;
  readonly products: readonly string[];
  /** Whether the basis of each limit is shown beside it. */
  readonly basis?: boolean;
}

/** The control points of the plan in force that a formula and its products are held to. */
export function PlanPointsOf({ formula, products, basis = false }: Props) {
  const { snapshot, site } = useTabletState();
  const plan = planInForce(snapshot.planVersion, site.id, useNow(60_000));
  const found = plan ? steps.flatMap((step) => pointsFor(plan.content, { step, formula, products })) : [];
  const points = [...new Map(found.map((p) => [p.key, p])).values()];
  if (points.length === 0)
    return <Empty>{plan ? 'The plan in force has no control point for this formula.' : 'No plan has been approved here yet.'}</Empty>;
  return (
    <table className="lines">
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">Limit</th>
          <th scope="col">How often</th>
          {basis ? <th scope="col">Basis</th> : null}
        </tr>
      </thead>
      <tbody>
        {points.map((p) => (
          <tr key={p.key}>
            <td>
              <span className={`class ${p.class}`}>{phrase(`class.${p.class}`)}</span> {p.name}
            </td>
            <td>{limitText(p.limit)}</td>
            <td>{phrase(`frequency.${p.frequency}`)}</td>
            {basis && plan ? (
              <td>
                {p.basis} ({validationText(validationOf(plan, p))})
              </td>
            ) : null}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
