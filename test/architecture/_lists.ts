import ts from 'typescript';

/** A list of words written out in the source: `z.enum([…])`, an array of literals, a union of literal types. */
export interface WordList {
  readonly file: string;
  readonly line: number;
  /** What it is called: the constant, the property or the type that it is given to. */
  readonly name: string;
  readonly words: readonly string[];
}

export function wordListsIn(file: string, text: string): WordList[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true, file.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS);
  const found: WordList[] = [];
  const visit = (node: ts.Node): void => {
    const words = wordsOf(node);
    if (words && words.length > 1 && !isTyped(node) && !isColumns(node))
      found.push({ file, line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1, name: nameOf(node), words });
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

function wordsOf(node: ts.Node): string[] | undefined {
  if (ts.isArrayLiteralExpression(node)) {
    const literals = node.elements.filter(ts.isStringLiteral);
    return literals.length === node.elements.length ? literals.map((e) => e.text) : undefined;
  }
  if (!ts.isUnionTypeNode(node)) return undefined;
  const members = node.types.filter((t) => !isEmptyType(t));
  const literals = members.flatMap((t) => (ts.isLiteralTypeNode(t) && ts.isStringLiteral(t.literal) ? [t.literal.text] : []));
  return literals.length === members.length ? literals : undefined;
}

const isEmptyType = (type: ts.TypeNode): boolean =>
  type.kind === ts.SyntaxKind.UndefinedKeyword || (ts.isLiteralTypeNode(type) && type.literal.kind === ts.SyntaxKind.NullKeyword);

/** An array whose members the compiler checks against the declared list: an order of its own, which can say no other word. */
function isTyped(node: ts.Node): boolean {
  if (!ts.isArrayLiteralExpression(node)) return false;
  for (let at: ts.Node | undefined = node.parent; at && !ts.isStatement(at); at = at.parent) {
    if (ts.isSatisfiesExpression(at)) return true;
    if (ts.isCallExpression(at)) return at.typeArguments !== undefined || at.expression.getText().endsWith('.extract');
    if (ts.isNewExpression(at)) return at.typeArguments !== undefined;
    if (ts.isVariableDeclaration(at)) return at.type !== undefined;
  }
  return false;
}

/** The columns that a collection is looked up by. */
function isColumns(node: ts.Node): boolean {
  return ts.isPropertyAssignment(node.parent) && node.parent.name.getText() === 'by';
}

/** The nearest name above: `way: z.enum([…]).nullable()` is called way. */
function nameOf(node: ts.Node): string {
  for (let at: ts.Node | undefined = node.parent; at; at = at.parent) {
    if (
      ts.isVariableDeclaration(at) ||
      ts.isPropertyAssignment(at) ||
      ts.isPropertySignature(at) ||
      ts.isTypeAliasDeclaration(at) ||
      ts.isParameter(at)
    )
      return at.name.getText();
    if (ts.isStatement(at)) return '';
  }
  return '';
}

/** The same words in whatever order. */
const setOf = ({ words }: WordList): string => [...new Set(words)].sort().join(' ');

/**
 * Lists that say again what a list of these homes says: all of the same three words or more, or two words under the same name. Answers with
 * each that is one too many, the one to keep being the first in the homes.
 */
export function repeated(
  lists: readonly WordList[],
  isHome: (file: string) => boolean,
): { readonly list: WordList; readonly of: WordList }[] {
  const groups = new Map<string, WordList[]>();
  for (const list of lists) {
    const key = new Set(list.words).size > 2 ? setOf(list) : `${list.name.toLowerCase()}: ${setOf(list)}`;
    groups.set(key, [...(groups.get(key) ?? []), list]);
  }
  return [...groups.values()].flatMap((group) => {
    const home = group.find((list) => isHome(list.file));
    return home ? group.filter((list) => list !== home).map((list) => ({ list, of: home })) : [];
  });
}
