import ts from 'typescript';

/** Where a file decides itself which version, plan or specification is in force, and how. */
export interface Decides {
  readonly line: number;
  readonly what: string;
}

/** What says in SQL which of several holds: the newest of each, the last before an instant, what ended after it began. */
const inSql =
  /DISTINCT ON \((formula|series|[a-z]\.material|material)\)|FROM (plan_version|formula_version|specification)\b[^`]*?ORDER BY [^`]*?\b(since|number) DESC|\bsince <=? |\bat >= [a-z]+\.since/g;
const compares: ReadonlySet<ts.SyntaxKind> = new Set([
  ts.SyntaxKind.LessThanToken,
  ts.SyntaxKind.LessThanEqualsToken,
  ts.SyntaxKind.GreaterThanToken,
  ts.SyntaxKind.GreaterThanEqualsToken,
]);
const named = (node: ts.Node, name: string): boolean => ts.isPropertyAccessExpression(node) && node.name.text === name;

/**
 * Where a file compares the instant from which something holds with another instant, compares the numbers of versions, looks for the plan of a site or of all,
 * or asks the same in SQL.
 */
export function inForceDecidedIn(file: string, text: string): Decides[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true, file.endsWith('x') ? ts.ScriptKind.TSX : ts.ScriptKind.TS);
  const found: Decides[] = [];
  const note = (node: ts.Node, what: string): void => {
    found.push({ line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1, what });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isBinaryExpression(node)) {
      const { left, right, operatorToken: operator } = node;
      const sides = [left, right];
      const sinces = sides.filter((side) => named(side, 'since')).length;
      if (compares.has(operator.kind) && sinces === 1) note(node, 'compares since');
      const numbers = sides.every((side) => named(side, 'number'));
      if (numbers && (compares.has(operator.kind) || operator.kind === ts.SyntaxKind.MinusToken)) note(node, 'compares numbers');
    }
    if (ts.isStringLiteralLike(node) || ts.isTemplateExpression(node))
      for (const [sql] of node.getText().matchAll(inSql)) note(node, `asks ${sql.replace(/\s+/g, ' ').slice(0, 40)}`);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}
