import { paperOrder, type RecallPart } from '@bakehouse/contracts';
import { Download } from '../../shared/download';
import { file } from '../../shared/file';
import { OrderedPaper } from '../../shared/ordered-paper';
import { For } from '../../ui';

interface CustomerProps {
  readonly recall: string;
  readonly customer: string;
  readonly name: string;
}

/** What one customer is sent: nothing on it is about another. */
export const CustomerNotice = ({ recall, customer, name }: CustomerProps) => (
  <For needs="export">
    <OrderedPaper
      order={(ask) =>
        ask('get', '/recalls/{recall}/papers/order', paperOrder, { params: { path: { recall }, query: { part: 'customer', customer } } })
      }
      name={`notice-${recall.slice(-6)}-${customer.slice(-6)}.pdf`}
      text={`Notice for ${name} (PDF)`}
    />
  </For>
);

/** The case on paper: to hand over, to work in, to keep. */
export function Papers({ recall, practice }: { readonly recall: string; readonly practice: boolean }) {
  const name = `${practice ? 'practice' : 'recall'}-${recall.slice(-6)}`;
  const of = (form: 'xlsx' | 'json', text: string) => (
    <Download
      from={(ask) => ask('get', `/recalls/{recall}/papers/recall.${form}`, file, { params: { path: { recall } }, parseAs: 'blob' })}
      name={`${name}.${form}`}
      text={text}
    />
  );
  const printed = (part: RecallPart, file: string, text: string) => (
    <OrderedPaper
      order={(ask) => ask('get', '/recalls/{recall}/papers/order', paperOrder, { params: { path: { recall }, query: { part } } })}
      name={`${file}.pdf`}
      text={text}
    />
  );
  return (
    <For needs="export">
      <div className="buttons">
        {printed('all', name, 'To print (PDF)')}
        {printed('notice', `${name}-notice`, 'Notice for customers (PDF)')}
        {printed('public', `${name}-public-notice`, 'Notice for the public (PDF)')}
        {printed('contacts', `${name}-contacts`, 'Contact list (PDF)')}
        {of('xlsx', 'Spreadsheet (XLSX)')}
        {of('json', 'For another computer (JSON)')}
      </div>
    </For>
  );
}
