import { changed, isFields, renamed, type Fields } from '../spellings.js';

const said: Readonly<Record<string, boolean>> = { yes: true, y: true, true: true, no: false, n: false, false: false };
const plain = (answer: unknown): unknown => {
  const word = typeof answer === 'string' ? answer.trim().toLowerCase() : '';
  return Object.hasOwn(said, word) ? said[word] : answer;
};

/** The year in what an edition is called: "CXC 1-1969 (2022)", "codex-2022", 2022. */
function yearIn(edition: unknown): unknown {
  const years = typeof edition === 'string' && edition.length <= 100 ? (edition.match(/\b(?:1997|2003|2022)\b/g) ?? []) : [];
  return years.length === 1 ? years[0] : edition;
}

const nameOf = (question: string): string =>
  question
    .trim()
    .toLowerCase()
    .replace(/^question\s*/, 'q')
    .replace(/^(?=\d)/, 'q');

/** Answers in the order in which the tree asks: the older trees ask Q1b only after a no to Q1. */
function inOrder(list: readonly unknown[], older: boolean): Fields {
  const names = older && plain(list[0]) === false ? ['q1', 'q1b'] : ['q1', 'q2', 'q3', 'q4'];
  return Object.fromEntries(list.map((answer, i): [string, unknown] => [names[i] ?? `q${i + 1}`, answer]));
}

function fieldsOf(answers: unknown, older: boolean): unknown {
  if (!Array.isArray(answers)) return answers;
  if (answers.length === 0 || answers.length > 5) return answers;
  if (!answers.every((one) => isFields(one) && typeof one['question'] === 'string' && 'answer' in one)) return inOrder(answers, older);
  return Object.fromEntries(answers.map((one: Fields): [string, unknown] => [String(one['question']), one['answer']]));
}

/** Answers by question, its name in either case, as a list in the order asked, or as a list of question and answer; "Yes" for yes. */
export function alsoReads(raw: Fields): Fields {
  const named = changed(raw, 'edition', yearIn);
  return changed(named, 'answers', (answers) => {
    const fields = fieldsOf(answers, named['edition'] !== '2022' && named['edition'] !== 2022);
    if (!isFields(fields)) return fields;
    const names = Object.fromEntries(
      Object.keys(fields)
        .filter((name) => name !== nameOf(name))
        .map((name) => [name, nameOf(name)]),
    );
    return Object.fromEntries(Object.entries(renamed(fields, names)).map(([name, answer]) => [name, plain(answer)]));
  });
}
