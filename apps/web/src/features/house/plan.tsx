import { planInForce } from '../../shared/in-force';
import { office } from '../../shared/office-paths';
import { PlanPoints } from '../../shared/plan-points';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { Button, Empty, Screen } from '../../shared/ui';

/** The plan in force at this site, to read. */
export function Plan() {
  const { snapshot, site } = useTabletState();
  const now = useNow(60_000);
  const plan = planInForce(snapshot, site.id, now);
  const back = { to: office.home, text: 'Office' };
  if (!plan)
    return (
      <Screen title="The plan" back={back}>
        <Empty>
          No HACCP plan is in force here. The food-safety lead puts one in force, signed; until then nothing is released by rule.
        </Empty>
      </Screen>
    );
  return (
    <Screen title={plan.content.name} back={back} actions={<Button onClick={() => window.print()}>Print</Button>}>
      <p>
        Version {plan.number}, in force since {dayTime(plan.since, site.zone)}.
      </p>
      <PlanPoints content={plan.content} />
    </Screen>
  );
}
