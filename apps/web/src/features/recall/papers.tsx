import { paperOrder } from '@bakehouse/contracts';
import { Download } from '../../shared/download';
import { file } from '../../shared/file';
import { OrderedPaper } from '../../shared/ordered-paper';

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
  return (
    <div className="buttons">
      <OrderedPaper
        order={(ask) => ask('get', '/recalls/{recall}/papers/order', paperOrder, { params: { path: { recall } } })}
        name={`${name}.pdf`}
        text="To print (PDF)"
      />
      {of('xlsx', 'Spreadsheet (XLSX)')}
      {of('json', 'For another computer (JSON)')}
    </div>
  );
}
