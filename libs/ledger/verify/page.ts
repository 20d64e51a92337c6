import { plainName } from '../src/report-says.js';
import { fromBase64, heldIn, readBundle, verifyBundle, type BookReport, type BundleBook, type BundleEntry } from '../src/index.js';

/** More entries than these are not listed one by one: their findings are. */
const maxListed = 500;

const found: Readonly<Record<BookReport['findings'][number]['finding'], string>> = {
  'in-the-tree': 'as it was sealed',
  'in-the-tree-body-withheld': 'sealed; its content is not given and was not checked',
  'not-in-the-tree': 'IS NOT WHAT WAS SEALED at this place',
  'not-canonical': 'was sealed in a form that can be read in more than one way',
  'word-differs': 'its text is NOT the one that was sealed',
  malformed: 'cannot be read',
  'no-proof': 'has no proof, so nothing can be said of it',
  'given-twice': 'is in the file twice',
  'out-of-place': 'is not where the file says it is',
  'left-out': 'IS MISSING here, with any that follow it up to the next',
};
const earlierFound: Readonly<Record<BookReport['earlier'][number]['finding'], string>> = {
  good: 'still holds: all it covers is in the new seal, unchanged',
  'history-differs': 'DOES NOT HOLD: what it covers is not the beginning of what is sealed now',
  'another-origin': 'is of another book',
  'no-proof': 'has no proof, so nothing can be said of it',
  'malformed-key': 'cannot be checked: the key cannot be read',
  'malformed-note': 'cannot be read',
  'malformed-checkpoint': 'cannot be read',
  'not-signed-by-key': 'is not signed by this key',
  'signature-wrong': 'WAS CHANGED after it was signed',
  'key-not-led-to': 'is of a key that nothing leads to',
  'key-out-of-turn': 'IS OF A KEY whose turn it was not',
};

function element(name: string, text = '', children: readonly Node[] = []): HTMLElement {
  const made = document.createElement(name);
  made.textContent = text;
  made.append(...children);
  return made;
}
const row = (cells: readonly string[], cell = 'td'): HTMLElement =>
  element(
    'tr',
    '',
    cells.map((text) => element(cell, text)),
  );
const by = (id: string): HTMLElement => document.getElementById(id) ?? document.body;

function contentOf({ bytesBase64, words }: BundleEntry): string {
  const bytes = bytesBase64 === undefined ? undefined : fromBase64(bytesBase64);
  if (bytes === undefined) return 'Its content is not given.';
  const text = new TextDecoder().decode(bytes);
  const texts = (words ?? []).map(({ field, text: said }) => `${field}: ${said}\n`).join('');
  try {
    return `${texts}${JSON.stringify(JSON.parse(text), null, 2)}`;
  } catch {
    return `${texts}${text}`;
  }
}

function listed(entry: BundleEntry, finding: string): HTMLElement {
  const details = element('details', '', [element('summary', `Entry ${entry.seq}: ${finding}`)]);
  details.addEventListener('toggle', () => details.append(element('pre', contentOf(entry))), { once: true });
  return details;
}

function entriesOf(book: BundleBook, report: BookReport): HTMLElement[] {
  const special = new Map(report.findings.map(({ seq, finding }) => [seq, finding]));
  const given = book.entries.slice(0, maxListed).map((entry) => listed(entry, found[special.get(entry.seq) ?? 'in-the-tree']));
  const more = book.entries.length - given.length;
  return [
    ...report.findings
      .filter(({ finding }) => finding !== 'in-the-tree-body-withheld')
      .map(({ seq, finding }) => element('p', `Entry ${seq} ${found[finding]}.`)),
    ...given,
    ...(more > 0 ? [element('p', `${more} more were checked and are not listed.`)] : []),
  ];
}

function showBook(book: BundleBook, report: BookReport): HTMLElement[] {
  const seals = report.earlier.map((e) => row([String(e.size ?? ''), e.rootHex ?? '', earlierFound[e.finding]]));
  const now = row([String(report.size ?? ''), report.rootHex ?? '', report.seal === 'good' ? 'this seal' : earlierFound[report.seal]]);
  return [
    element('h2', `${plainName(report.name)} (${report.origin ?? 'unknown'})`),
    element('p', 'The key that came with the file. Compare it with one on a paper that you had before:'),
    element('code', book.verifierKey),
    element('table', '', [row(['Entries', 'Root', ''], 'th'), now, ...seals]),
    ...(report.seal === 'good' ? entriesOf(book, report) : []),
  ];
}

function show(text: string, had: string): HTMLElement[] {
  const bundle = readBundle(text);
  const verdict = (said: string, look: string): HTMLElement => {
    const made = element('p', said);
    made.className = `verdict ${look}`;
    return made;
  };
  if (bundle === undefined) return [verdict('This is no file of records that this page can read.', 'wrong')];
  const report = verifyBundle(bundle, heldIn(had));
  const fits =
    report.held.length === 0
      ? 'The file fits its own seal. You compared it with nothing that you had before.'
      : 'All that was checked fits.';
  return [
    report.ok ? verdict(fits, 'fits') : verdict('Something does not fit. See below.', 'wrong'),
    element(
      'ul',
      '',
      report.says.map((line) => element('li', line)),
    ),
    ...report.books.flatMap((one, i) => {
      const book = bundle.books[i];
      return book === undefined ? [] : showBook(book, one);
    }),
  ];
}

const valueOf = (id: string): string => {
  const field = by(id);
  return field instanceof HTMLTextAreaElement ? field.value : '';
};

async function given(): Promise<string> {
  const field = by('file');
  const file = field instanceof HTMLInputElement ? field.files?.[0] : undefined;
  return file === undefined ? valueOf('pasted').trim() : file.text();
}

by('check').addEventListener('click', () => {
  by('result').replaceChildren(element('p', 'One moment…')); // what is there is of the check before
  void given().then((text) => by('result').replaceChildren(...show(text, valueOf('had'))));
});
