import type { MaterialList } from '@bakehouse/contracts';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { Notice } from '../../ui';
import { allergensOf, allergenWords } from './allergen-picker';
import { madeWith, type SpecificationText } from './specification-text';

interface Props {
  readonly material: string;
  readonly before: MaterialList[number]['specifications'];
  readonly now: SpecificationText;
}

/** What a new version changes for those who eat: an allergen more, and where it goes. */
export function Affected({ material, before, now }: Props) {
  const { snapshot } = useTabletState();
  const at = useNow(60_000);
  const same = before.filter((s) => (s.supplier ?? '') === now.supplier);
  const known = (same.length > 0 ? same : before).flatMap((s) => s.contains);
  const knownMaybe = (same.length > 0 ? same : before).flatMap((s) => s.mayContain);
  const contains = allergensOf(now.allergens, 'yes').filter((a) => !known.includes(a));
  const may = allergensOf(now.allergens, 'may').filter((a) => !known.includes(a) && !knownMaybe.includes(a));
  if (contains.length === 0 && may.length === 0) return null;
  const { formulas, products } = madeWith(snapshot, at, material);
  return (
    <Notice tone="bad" title="An allergen more">
      {contains.length === 0 ? null : <p>It now contains {allergenWords(contains)}.</p>}
      {may.length === 0 ? null : <p>It now may contain {allergenWords(may)}.</p>}
      {formulas.length === 0 ? (
        <p>No approved formula uses it.</p>
      ) : (
        <>
          <p>It goes into the formulas {formulas.join(', ')}.</p>
          {products.length === 0 ? null : <p>And so into {products.join(', ')}.</p>}
        </>
      )}
      <p>
        Labels, tickets and allergen cards that were printed before no longer hold. Take them away and print them again before anything is
        sold.
      </p>
    </Notice>
  );
}
