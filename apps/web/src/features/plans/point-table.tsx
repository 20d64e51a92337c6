import { phrase, validationOf, type PhraseKey, type Row } from '@bakehouse/records';
import { office } from '../../shared/office-paths';
import { PlanPoints, pointLimitText, PlanScope, PointWords, type PlanPoint } from '../../shared/plan-points';
import { Caution, Empty, Screen } from '../../ui';
import { DataTable, type Column } from '../../ui/table';

type Plan = Pick<Row<'planVersion'>, 'content' | 'loosened'>;

/** The control points of the plan in force, one row a point; on paper each with all its words. */
export function PointTable({ plan, opened }: { readonly plan: Plan; readonly opened: string | undefined }) {
  const { content } = plan;
  return (
    <>
      <div className="not-printed">
        <PlanScope content={content} />
        <DataTable
          label="Control points"
          columns={columns}
          rows={content.points}
          keyOf={(p) => p.key}
          to={(p) => office.planPoint(p.key)}
          opened={opened}
          none="The plan has no control point."
        />
        <Caution />
      </div>
      <div className="printed-only">
        <PlanPoints plan={plan} />
      </div>
    </>
  );
}

/** One control point of the plan in force. */
export function PointPage({ plan, id }: { readonly plan: Plan | undefined; readonly id: string }) {
  const p = plan?.content.points.find((one) => one.key === id);
  return (
    <Screen title={p?.name ?? 'No such control point'} back={{ to: office.plan, text: 'Plan' }}>
      {plan && p ? (
        <PointWords p={p} validation={validationOf(plan, p)} />
      ) : (
        <Empty>The plan in force here has no such point. An earlier version may have it.</Empty>
      )}
      <Caution />
    </Screen>
  );
}

const columns: readonly Column<PlanPoint>[] = [
  { id: 'name', head: 'Control point', text: (p) => p.name },
  {
    id: 'class',
    head: 'Class',
    text: (p) => phrase(`class.${p.class}`),
    shown: (p) => <span className={`class ${p.class}`}>{phrase(`class.${p.class}`)}</span>,
  },
  { id: 'limit', head: 'Limit', text: pointLimitText, shown: (p) => <strong>{pointLimitText(p)}</strong> },
  { id: 'step', head: 'Step', text: (p) => phrase(`pointStep.${p.step}`), spare: true },
  { id: 'measured', head: 'Measured', text: (p) => `${p.parameter}, ${phrase(`measured.${p.measured}`)}`, spare: true },
  { id: 'often', head: 'How often', text: (p) => phrase(`frequency.${p.frequency}`) },
  { id: 'hazard', head: 'Hazard', text: (p) => p.hazard, look: 'long', spare: true },
  {
    id: 'outside',
    head: 'If outside',
    text: (p) => `${phrase(`ifOutside.${p.ifOutside}` as PhraseKey)}. ${p.correctiveAction}`,
    look: 'long',
    spare: true,
  },
];
