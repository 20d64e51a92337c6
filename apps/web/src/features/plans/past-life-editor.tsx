import { phrase, lifeRule, planInForce, type Life } from '@bakehouse/records';
import { Pick } from '../../shared/drafts/fields';
import { lifeRuleText, lives } from '../../shared/past-life';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { Section } from '../../ui';
import type { PlanText, PlanWriting } from './text';

const rules = lifeRule.options.map((value) => ({ value, text: phrase(`lifeRule.${value}`) }));

/** What the plan says of food past its life: chosen for each life, by nobody in advance. */
export function PastLifeEditor({ writing: { text, changeContent } }: { readonly writing: PlanWriting }) {
  const { pastLife } = text.content;
  const change = (life: Life, chosen: string | null): void => {
    const rule: PlanText['content']['pastLife'][Life] = lifeRule.options.find((one) => one === chosen) ?? null;
    changeContent({ pastLife: { ...pastLife, [life]: rule } });
  };
  return (
    <Section title="Food past its life">
      <p>
        Warn: the table says so before the tap; where it is used past its life all the same, that opens a deviation. Hold: it is on hold
        from that moment, and so is what it is used in after it, until a signed decision. Past a use-by date food is always held. How many
        hours something keeps stands in its formula, or in its specification. What is on hold when a version is signed stays on hold until
        somebody signs a decision about it, whatever that version says.
      </p>
      <div className="long-fields">
        {lives.map((life) => (
          <Pick
            key={life}
            label={lifeRuleText[life]}
            value={pastLife[life]}
            nothing="choose"
            options={rules}
            onChange={(chosen) => change(life, chosen)}
          />
        ))}
      </div>
    </Section>
  );
}

/** Said before it is signed where it only warns of what the version in force holds: that takes nothing off hold. */
export function StaysOnHold({ writing: { text } }: { readonly writing: PlanWriting }) {
  const { snapshot, site } = useTabletState();
  const before = planInForce(snapshot.planVersion, text.site ?? site.id, useNow(60_000))?.content.pastLife;
  const milder = lives.filter((life) => before?.[life] === 'hold' && text.content.pastLife[life] === 'warn');
  if (milder.length === 0) return null;
  return (
    <p>
      <strong>Stays on hold:</strong> the version in force holds food that is{' '}
      {milder.map((life) => lifeRuleText[life].toLowerCase()).join(' and ')}; this one only warns of it. What is on hold by then stays on
      hold until somebody signs a decision about it.
    </p>
  );
}
