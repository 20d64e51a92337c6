import { countText } from '@bakehouse/kernel';
import type { Grid, Offered, Wrong } from '@bakehouse/views';
import { useRef, useState, type ReactNode } from 'react';
import { saveFile } from '../../ui/save-file';
import { TroubleNotice } from '../../shared/trouble-notice';
import { useMany, type ManyDone } from '../../shared/use-many';
import { Button, Caution, LinkButton, Notice, Screen, Section } from '../../ui';
import { Existing, LeftOut, OfferedLines, WrongLines } from './preview';
import { sheetOf } from './sheet-file';
import './setup.css';

type AnyOffered = Offered<'specification-accepted'> | Offered<'party-accepted'>;
export interface SheetFound {
  readonly as: 'read';
  /** What comes before the rest, since that names it. */
  readonly first: readonly AnyOffered[];
  readonly offered: readonly AnyOffered[];
  readonly existing: readonly { readonly line: number; readonly name: string }[];
  readonly wrong: readonly Wrong[];
  readonly leftOut: readonly string[];
}
export type SheetSays = SheetFound | { readonly as: 'refused'; readonly says: string };

interface Props {
  readonly title: string;
  readonly what: readonly [one: string, many: string];
  readonly columns: readonly string[];
  readonly note: string;
  readonly back: string;
  readonly read: (grid: Grid) => SheetSays;
  readonly after: () => Promise<unknown>;
}

/** A sheet is chosen, looked through, and only then put on the list. */
export function SheetPage({ title, what, columns, note, back, read, after }: Props) {
  const [file, setFile] = useState<{ readonly name: string; readonly says: SheetSays }>();
  const [sent, setSent] = useState<number>();
  const [done, setDone] = useState<ManyDone>();
  const many = useMany();
  const choose = async (chosen: File | undefined): Promise<void> => {
    if (!chosen) return;
    setDone(undefined);
    const found = await sheetOf(chosen);
    setFile({ name: chosen.name, says: found.as === 'grid' ? read(found.grid) : found });
  };
  const found = file?.says.as === 'read' ? file.says : undefined;
  const add = async ({ first, offered }: SheetFound): Promise<void> => {
    setSent(0);
    const came = await many(
      [...first, ...offered].map((o) => o.entry),
      setSent,
    );
    setDone(came);
    setSent(undefined);
    await after();
    if (!came.trouble && came.refused.length === 0) setFile(undefined);
  };
  return (
    <Screen title={title} back={{ to: back, text: 'The list' }}>
      <Columns columns={columns} note={note} />
      <FileKey busy={sent !== undefined} first={found === undefined} onChoose={(chosen) => void choose(chosen)}>
        <Button look="quiet" onClick={() => saveFile(new Blob([`${columns.join(',')}\r\n`], { type: 'text/csv' }), `${what[1]}.csv`)}>
          An empty sheet to fill
        </Button>
      </FileKey>
      {file?.says.as === 'refused' ? (
        <Notice tone="bad" title={`${file.name} was not read`}>
          <p>{file.says.says}</p>
        </Notice>
      ) : null}
      {done ? <Came done={done} back={back} what={what} /> : null}
      {found && file ? <Preview name={file.name} found={found} what={what} sent={sent} onAdd={() => void add(found)} /> : null}
      <Caution />
    </Screen>
  );
}

const Columns = ({ columns, note }: Pick<Props, 'columns' | 'note'>) => (
  <>
    <p>
      An .xlsx workbook (its first sheet) or CSV, at most 5 MB and 5,000 lines. The first line names the columns:{' '}
      <strong>{columns[0]}</strong> must be there; {columns.slice(1).join(', ')} may.
    </p>
    <p>{note}</p>
  </>
);

function FileKey({
  busy,
  first,
  onChoose,
  children,
}: {
  readonly children: ReactNode;
  readonly busy: boolean;
  readonly first: boolean;
  readonly onChoose: (file: File | undefined) => void;
}) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <div className="buttons">
      <Button look={first ? 'go' : 'plain'} disabled={busy} onClick={() => input.current?.click()}>
        {first ? 'Choose a sheet' : 'Choose another sheet'}
      </Button>
      <input
        ref={input}
        hidden
        type="file"
        accept=".csv,.xlsx,text/csv,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
        onChange={(e) => {
          onChoose(e.target.files?.[0]);
          e.target.value = ''; // the same file again is a choice too
        }}
      />
      {children}
    </div>
  );
}

interface PreviewProps {
  readonly name: string;
  readonly found: SheetFound;
  readonly what: Props['what'];
  readonly sent: number | undefined;
  readonly onAdd: () => void;
}

function Preview({ name, found, what, sent, onAdd }: PreviewProps) {
  const { first, offered, existing, wrong, leftOut } = found;
  const all = first.length + offered.length;
  return (
    <Section title={`What ${name} would add`}>
      <p role="status">
        {countText(offered.length, ...what)} would be added, {existing.length} {existing.length === 1 ? 'is' : 'are'} there already,{' '}
        {wrong.length} {wrong.length === 1 ? 'thing is' : 'things are'} wrong. Nothing is written yet.
      </p>
      <LeftOut headings={leftOut} />
      {sent === undefined ? (
        <div className="buttons">
          <Button look="go" disabled={all === 0} onClick={onAdd}>
            {all === 0
              ? 'Nothing to add'
              : `Add ${countText(offered.length, ...what)}${first.length > 0 ? ` and ${countText(first.length, 'supplier')}` : ''}`}
          </Button>
        </div>
      ) : (
        <p className="setup-progress" role="status">
          <progress value={sent} max={all} aria-label="Added so far" /> {sent} of {all}
        </p>
      )}
      <WrongLines wrong={wrong} />
      {first.length > 0 ? <OfferedLines title="Suppliers that it names and the house does not have" of={first} /> : null}
      <OfferedLines title="To be added" of={offered} />
      <Existing of={existing} />
    </Section>
  );
}

function Came({ done, back, what }: { readonly done: ManyDone; readonly back: string; readonly what: Props['what'] }) {
  return (
    <>
      <TroubleNotice of={done.trouble} />
      <Notice tone={done.refused.length > 0 ? 'bad' : 'good'} title={`${done.recorded} on the list now`}>
        {done.refused.slice(0, 20).map((r) => (
          <p key={r.at}>Not taken: {r.says}</p>
        ))}
        <p>The same sheet adds nothing twice: {what[1]} that are there by name are left as they are.</p>
      </Notice>
      <div className="buttons">
        <LinkButton to={back}>See the list</LinkButton>
      </div>
    </>
  );
}
