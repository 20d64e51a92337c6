import ts from 'typescript';

/** A state of food that is decided in a file, and how. */
export interface Decided {
  readonly line: number;
  readonly what: string;
}

/** What food may be called: how a batch, a lot or a make stands. */
const states: ReadonlySet<string> = new Set(['on-hold', 'held', 'ready', 'may-go', 'waits', 'waiting', 'released', 'gone', 'destroyed']);
/** The rows that speak against food or end what speaks against it, or that say that it was released. */
const speaking: ReadonlySet<string> = new Set([
  'hold',
  'holdLifted',
  'receiptDecision',
  'refusalEnded',
  'recallScopeLot',
  'recallDecision',
  'release',
]);
/** The tables that say that something is over: who asks for what is in none of them decides what is open. */
const overIn = /NOT EXISTS \(SELECT[^)]*?\bFROM (hold_lifted|deviation_closed|recall_closed|refusal_ended|release|departure)\b/g;
const rawColumns = /\b(decided|closed_at|lifted_at|released_at) IS NULL/g;

/**
 * Where a file decides a state itself: it gives one of the words as one of two answers, counts what speaks against a lot, looks up the rows that speak, or asks in
 * SQL for what has no end. To compare with a state that somebody gave is to read it.
 */
export function statesDecidedIn(file: string, text: string): Decided[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true, file.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS);
  const found: Decided[] = [];
  const note = (node: ts.Node, what: string): void => {
    found.push({ line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1, what });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isConditionalExpression(node))
      for (const word of [node.whenTrue, node.whenFalse].flatMap((branch) => wordIn(branch))) note(node, `gives ${word}`);
    if (ts.isReturnStatement(node) && node.expression && ts.isIfStatement(statementAround(node)))
      for (const word of wordIn(node.expression)) note(node, `gives ${word}`);
    if (countsConcerns(node)) note(node, 'counts what speaks against it');
    const row = rowAskedFor(node);
    if (row !== null) note(node, `looks up ${row}`);
    if (ts.isStringLiteralLike(node) || ts.isTemplateExpression(node))
      for (const [sql] of [...node.getText().matchAll(overIn), ...node.getText().matchAll(rawColumns)]) note(node, `asks ${short(sql)}`);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

const short = (sql: string): string => sql.replace(/\s+/g, ' ').replace(/SELECT[^)]*FROM/, '…');

/** A state as it is given: the word, `{ state: word }`, or `[id, word]`. */
function wordIn(node: ts.Expression): string[] {
  if (ts.isStringLiteral(node)) return states.has(node.text) ? [node.text] : [];
  if (ts.isParenthesizedExpression(node) || ts.isAsExpression(node) || ts.isSatisfiesExpression(node)) return wordIn(node.expression);
  if (ts.isArrayLiteralExpression(node)) return node.elements.flatMap(wordIn);
  if (!ts.isObjectLiteralExpression(node)) return [];
  return node.properties.flatMap((p) =>
    ts.isPropertyAssignment(p) && /^(state|standing|status|release)$/.test(p.name.getText()) ? wordIn(p.initializer) : [],
  );
}

const statementAround = (node: ts.Node): ts.Node => (ts.isBlock(node.parent) ? node.parent.parent : node.parent);

/** `concerns.length > 0`, `lot.concerns.length === 0`, `concerns.some(() => true)`: a state out of how many there are. */
const countsConcerns = (node: ts.Node): boolean =>
  ts.isBinaryExpression(node) && [node.left, node.right].some((side) => /(^|\.)concerns\.length$/.test(side.getText()));

function rowAskedFor(node: ts.Node): string | null {
  if (!ts.isCallExpression(node) || !ts.isPropertyAccessExpression(node.expression)) return null;
  const [first] = node.arguments;
  if (!/^(find|get)$/.test(node.expression.name.text) || !first || !ts.isStringLiteral(first)) return null;
  return speaking.has(first.text) ? first.text : null;
}
