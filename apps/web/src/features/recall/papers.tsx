/** The case on paper: to hand over, to sort, to keep. */
export function Papers({ recall }: { readonly recall: string }) {
  const link = (form: string, text: string) => <a className="button plain" href={`/api/v1/recalls/${recall}/papers/${form}`} download>{text}</a>;
  return <div className="buttons">{link('pdf', 'To print (PDF)')}{link('xlsx', 'To sort (XLSX)')}{link('json', 'For another computer (JSON)')}</div>;
}
