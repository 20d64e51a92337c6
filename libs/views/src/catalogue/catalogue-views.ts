import type { MaterialList, PartyList } from '@bakehouse/contracts';
import type { Row } from '@bakehouse/records';

/** A specification with the name of its supplier as it is known now. */
export type SpecificationRow = Row<'specification'> & { readonly supplierName: string | null };
/** A supplier or customer, and since when dealing with them is stopped, if it is. */
export type PartyRow = Row<'party'> & { readonly stopped: string | null };

/** Materials by name, each with its specifications, the newest first; of each supplier the newest is in force. Pure. */
export function materialsOf(rows: readonly SpecificationRow[]): MaterialList {
  const byMaterial = new Map<string, SpecificationRow[]>();
  for (const row of rows) byMaterial.set(row.material, [...(byMaterial.get(row.material) ?? []), row]);
  return [...byMaterial]
    .map(([material, all]) => ({
      material,
      name: all[0]?.name ?? '',
      type: all[0]?.type ?? 'ingredient',
      specifications: all.map(({ material: _material, type: _sort, contains, mayContain, ...s }) => ({
        ...s,
        contains: [...contains],
        mayContain: [...mayContain],
        inForce: all.find((other) => other.supplier === s.supplier)?.id === s.id,
      })),
    }))
    .sort((a, b) => a.name.localeCompare(b.name) || (a.material < b.material ? -1 : 1));
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
