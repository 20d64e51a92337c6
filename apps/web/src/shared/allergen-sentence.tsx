import { official, type AllergenAnswer } from '@bakehouse/records';
import { dayText } from './format';

interface Props {
  readonly of: AllergenAnswer;
  readonly by: 'formula' | 'specification';
}

/** What something contains by its formula or specification. Absence is said against checked specifications alone, with the day of the oldest check. */
export function AllergenSentence({ of: { contains, mayContain, notKnown, checkedSince }, by }: Props) {
  const names = (some: AllergenAnswer['contains']): string => some.map((a) => official(`allergen.${a}`)).join('; ');
  return (
    <>
      <strong>Contains by {by}:</strong>{' '}
      {contains.length === 0 ? (checkedSince === null ? 'not known' : 'none of the list') : names(contains)}.{' '}
      {mayContain.length === 0 ? null : (
        <>
          <strong>May contain:</strong> {names(mayContain)}.{' '}
        </>
      )}
      {checkedSince === null ? null : (
        <span className="faint">Every specification was checked, the oldest on {dayText(checkedSince)}.</span>
      )}
      {notKnown.length === 0 ? null : (
        <>
          <strong>Not checked by anybody:</strong> {notKnown.join(', ')}. Nothing else can be said not to be in it.
        </>
      )}
    </>
  );
}
