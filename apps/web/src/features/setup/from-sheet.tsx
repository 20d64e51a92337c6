import { localDay } from '@bakehouse/kernel';
import { materialColumns, materialSheet, partyColumns, partySheet } from '@bakehouse/views';
import { office } from '../../shared/office-paths';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { Shown } from '../../shared/use-loaded';
import { SheetPage, type SheetSays } from './sheet-page';
import { useMaterials, useParties } from './known';

/** Materials from a sheet, with the suppliers that it names. */
export function MaterialsFromSheet() {
  const { site } = useTabletState();
  const materials = useMaterials();
  const parties = useParties();
  const today = localDay(useNow(60_000), site.zone);
  return (
    <Shown of={materials}>
      {(all) => (
        <Shown of={parties}>
          {({ parties: known }) => (
            <SheetPage
              title="Materials from a sheet"
              what={['material', 'materials']}
              columns={materialColumns.map((c) => c.headings[0])}
              back={office.materials}
              after={() => Promise.all([materials.reload(), parties.reload()])}
              note="What nobody checked stays not known: an empty cell under “Contains” never says that there is nothing. “None” is taken only with what it was checked against and on which day."
              read={(grid): SheetSays => {
                const suppliers = known.filter((p) => p.type === 'supplier');
                const read = materialSheet(grid, { organisation: site.organisation, materials: all, suppliers, today });
                return read.as === 'refused' ? read : { ...read, offered: read.materials, first: read.suppliers };
              }}
            />
          )}
        </Shown>
      )}
    </Shown>
  );
}

/** Suppliers and customers from a sheet. */
export function PartiesFromSheet() {
  const { site } = useTabletState();
  const parties = useParties();
  return (
    <Shown of={parties}>
      {({ parties: known }) => (
        <SheetPage
          title="Suppliers and customers from a sheet"
          what={['supplier or customer', 'suppliers and customers']}
          columns={partyColumns.map((c) => c.headings[0])}
          back={office.parties}
          after={() => parties.reload()}
          note="Without a type it is a supplier. Without a number nobody can be reached in a recall."
          read={(grid): SheetSays => {
            const read = partySheet(grid, { organisation: site.organisation, parties: known });
            return read.as === 'refused' ? read : { ...read, offered: read.parties, first: [] };
          }}
        />
      )}
    </Shown>
  );
}
