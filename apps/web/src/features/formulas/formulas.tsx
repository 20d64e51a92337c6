import { phrase, type Row } from '@bakehouse/records';
import { useMemo } from 'react';
import { mass } from '../../shared/format';
import { formulasInUse } from '../../shared/in-force';
import { office } from '../../shared/office-paths';
import { SetUpLink } from '../../shared/set-up-link';
import { useNow, useTabletState } from '../../shared/tablet-context';
import { dayTime } from '../../shared/trace/words';
import { LinkButton, Screen } from '../../ui';
import { Beside, DataTable, type Column } from '../../ui/table';
import { Formula } from './formula';

type One = Row<'formulaVersion'>;

/** The formulas in force. */
export function Formulas({ opened }: { readonly opened: string | undefined }) {
  const { snapshot, site } = useTabletState();
  const now = useNow(60_000);
  const formulas = useMemo(() => formulasInUse(snapshot, now), [snapshot, now]);
  const columns = useMemo(() => columnsIn(site.zone), [site.zone]);
  const list = (
    <Screen title="Formulas" wide back={{ to: office.home, text: 'Office' }} actions={<LinkButton to={office.drafts}>Drafts</LinkButton>}>
      <DataTable
        label="Formulas"
        columns={columns}
        rows={formulas}
        keyOf={(f) => f.id}
        to={(f) => office.formula(f.id)}
        opened={opened}
        none={
          <>
            No formula is approved yet. The manager approves one, signed; then it can be begun at the table. <SetUpLink />
          </>
        }
      />
    </Screen>
  );
  return <Beside opened={opened} closed={office.formulas} list={list} shown={(id) => <Formula key={id} id={id} />} />;
}

const weight = (f: One): number => f.content.lines.reduce((n, l) => n + l.mg, 0);

const columnsIn = (zone: string): readonly Column<One>[] => [
  { id: 'name', head: 'Name', text: (f) => f.name },
  { id: 'type', head: 'What it is', text: (f) => phrase(`formula.${f.type}`) },
  { id: 'version', head: 'Version', text: (f) => String(f.number), by: (f) => f.number, look: 'figure' },
  { id: 'weight', head: 'Weight', text: (f) => mass(weight(f)), by: weight, look: 'figure' },
  { id: 'since', head: 'In force since', text: (f) => dayTime(f.since, zone), by: (f) => f.since },
  { id: 'products', head: 'Products', text: (f) => f.content.products.map((p) => p.name).join(', '), look: 'long', spare: true },
];
