import type { MaterialList, PartyList } from '@bakehouse/contracts';
import { allergenSources, madeHere, materialAllergens, specificationsInForce, type AllergenBooks, type Row } from '@bakehouse/records';

/** A specification with the names of its supplier and of who checked it, as they are known now. */
export type SpecificationRow = Row<'specification'> & { readonly supplierName: string | null; readonly checkedBy: string | null };
/** A supplier or customer, and since when dealing with them is stopped, if it is. */
export type PartyRow = Row<'party'> & { readonly stopped: string | null };

/**
 * Materials by name, each with what it contains and its specifications, the newest first; of each supplier the newest is in force. What is made here
 * contains what its formulas say. Pure.
 */
export function materialsOf(rows: readonly SpecificationRow[], books: Omit<AllergenBooks, 'specifications'>, now: string): MaterialList {
  const byMaterial = new Map<string, SpecificationRow[]>();
  for (const row of rows) byMaterial.set(row.material, [...(byMaterial.get(row.material) ?? []), row]);
  const sources = allergenSources({ ...books, specifications: rows.toReversed() }, now);
  const holds = specificationsInForce(rows.toReversed(), now);
  return [...byMaterial]
    .map(([material, all]) => {
      const { name = '', type = 'ingredient' } = all[0] ?? {};
      const { contains, mayContain, notKnown, checkedSince } = materialAllergens(material, name, sources);
      return {
        material,
        name,
        type,
        by: madeHere(type) ? ('formula' as const) : ('specification' as const),
        allergens: { contains: [...contains], mayContain: [...mayContain], notKnown: [...notKnown], checkedSince },
        specifications: all.map((s) => shownSpecification(s, holds.get(material)?.get(s.supplier)?.id === s.id)),
      };
    })
    .sort((a, b) => a.name.localeCompare(b.name) || (a.material < b.material ? -1 : 1));
}

function shownSpecification({ material: _material, type: _type, ...s }: SpecificationRow, isInForce: boolean) {
  return {
    ...s,
    contains: [...s.contains],
    mayContain: [...s.mayContain],
    checked: s.checked && { against: s.checked.against, on: s.checked.on, by: s.checked.by },
    inForce: isInForce,
  };
}

/** Suppliers and customers; their contacts only where the caller may see them. Pure. */
export function partiesOf(rows: readonly PartyRow[], contactsShown: boolean): PartyList {
  return {
    contactsShown,
    parties: rows.map(({ party, type, name, vulnerable, unattended, since, stopped, contactName, phone, email, address }) => ({
      party,
      type,
      name,
      vulnerable,
      unattended,
      since,
      stopped,
      contact: contactsShown ? { name: contactName, phone, email, address } : null,
    })),
  };
}
