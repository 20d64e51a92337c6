import type { PlanDraftView } from '@bakehouse/contracts';
import { loosenedText } from '@bakehouse/views';
import { Words } from '../../shared/drafts/fields';
import { WarningList } from '../../shared/plan-warnings';
import { useMaterialOrFormula } from '../../shared/plan-names';
import { Button, Caution, Section } from '../../ui';
import { blankLoosening, type LooseningText, type PlanWriting } from './text';

/** What the draft, as it was saved, lets through that the plan in force does not: for each why, and what that rests on. */
export function LooseningReasons({ writing }: { readonly writing: PlanWriting }) {
  const { view, text, change } = writing;
  const nameOf = useMaterialOrFormula();
  if (view.loosened === null) return null; // what is typed is kept until the draft can be compared
  const isLoosened = (point: string): boolean => view.loosened?.some((one) => one.point === point) ?? true;
  const stale = text.loosened.some((one) => !isLoosened(one.point));
  if (view.loosened.length === 0 && !stale) return null;
  const set = (point: string, to: Partial<LooseningText>): void => {
    const before = text.loosened.find((one) => one.point === point) ?? { ...blankLoosening, point };
    change({ loosened: [...text.loosened.filter((one) => one.point !== point), { ...before, ...to }] });
  };
  return (
    <Section title="This lets through what the plan in force does not">
      <p>
        <strong>Food that is on hold today would pass tomorrow.</strong> For each, say why, and who validated it, on what and when. Without
        that it cannot be signed. What you say here is kept with the plan, and shown to everybody who reads it.
      </p>
      {view.loosened.map((one) => {
        const said = text.loosened.find((other) => other.point === one.point) ?? blankLoosening;
        return (
          <fieldset key={one.point} className="card editing-card">
            <legend>{loosenedText(one, nameOf)}</legend>
            <div className="long-fields">
              <Words label="Why it may let this through" value={said.reason} onChange={(reason) => set(one.point, { reason })} most={500} />
              <Words
                label="Who validated it (role or body)"
                value={said.validatedBy}
                onChange={(validatedBy) => set(one.point, { validatedBy })}
                most={200}
              />
              <Words
                label="On what: a study, a test, a publication"
                value={said.evidence}
                onChange={(evidence) => set(one.point, { evidence })}
                most={500}
              />
              <Words
                label="Validated on"
                type="date"
                value={said.validatedOn}
                onChange={(validatedOn) => set(one.point, { validatedOn })}
              />
            </div>
          </fieldset>
        );
      })}
      {stale ? (
        <div className="buttons">
          <Button look="quiet" onClick={() => change({ loosened: text.loosened.filter((one) => isLoosened(one.point)) })}>
            Take out what was said of others, which are as strict again
          </Button>
        </div>
      ) : null}
      <Caution />
    </Section>
  );
}

interface ListProps {
  readonly view: Pick<PlanDraftView, 'loosened' | 'warnings'>;
}

/** What stands above the PIN where a draft loosens something or asks to be looked at. */
export function BeforeThePin({ view: { loosened, warnings } }: ListProps) {
  const nameOf = useMaterialOrFormula();
  return (
    <>
      {loosened === null || loosened.length === 0 ? null : (
        <>
          <p>This lets through what the plan in force does not:</p>
          <ul>
            {loosened.map((one) => (
              <li key={one.point}>
                <strong>{loosenedText(one, nameOf)}</strong>
              </li>
            ))}
          </ul>
        </>
      )}
      <WarningList of={warnings} />
      <Caution />
    </>
  );
}
