import { phrase, type Life, type PastLife } from '@bakehouse/records';

export const lives = ['opened', 'madeHere'] as const satisfies readonly Life[];
export const lifeRuleText: Readonly<Record<Life, string>> = {
  opened: 'Past its life once opened',
  madeHere: 'Past the life of what was made here',
};

/** What a plan says of food past its life. */
export const PastLifeWords = ({ of }: { readonly of: PastLife }) => (
  <p>
    {lives.map((life) => (
      <span key={life}>
        <strong>{lifeRuleText[life]}:</strong> {phrase(`lifeRule.${of[life]}`)}.{' '}
      </span>
    ))}
    <strong>Past its use-by date:</strong> always hold.
  </p>
);
