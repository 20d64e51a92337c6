import type { MaterialList } from '@bakehouse/contracts';
import { phrase } from '@bakehouse/records';
import { dayText } from '../../shared/format';
import { allergenWords } from './allergen-picker';

type Specification = MaterialList[number]['specifications'][number];

/** How a specification says that it is kept, in one line. */
export function aboutSpecification(s: Specification): string {
  return [
    phrase(`countedIn.${s.countedIn}`),
    phrase(`storage.${s.storage}`),
    s.lifeDays === null ? undefined : `keeps ${s.lifeDays} days`,
    s.lifeOpenedHours === null ? undefined : `${s.lifeOpenedHours} hours once open`,
    s.densityMgPerMl === null ? undefined : `${s.densityMgPerMl / 1000} g a millilitre`,
  ]
    .filter((part) => part !== undefined)
    .join('; ');
}

/** What one specification names, and who checked that, against what and when. */
export function saidBy({ contains, mayContain, checked, checkedBy }: Specification): string {
  return [
    contains.length > 0 ? `contains ${allergenWords(contains)}` : undefined,
    mayContain.length > 0 ? `may contain ${allergenWords(mayContain)}` : undefined,
    checked === null
      ? 'nobody has checked it: what it does not name is not known'
      : `${contains.length + mayContain.length > 0 ? 'nothing else' : 'nothing of the allergen list'}, checked against ${phrase(`checkedAgainst.${checked.against}`)} on ${dayText(checked.on)} by ${checkedBy ?? 'somebody whose name is withheld'}`,
  ]
    .filter((part) => part !== undefined)
    .join('; ');
}
