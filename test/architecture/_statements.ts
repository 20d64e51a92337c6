import ts from 'typescript';

/** The text of each string of a file; where something is put into it, a question mark. What stands inside what is put in is a string of its own. */
function stringsIn(source: string): readonly string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) found.push(node.text);
    if (ts.isTemplateExpression(node)) found.push([node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join('?'));
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile('file.ts', source, ts.ScriptTarget.Latest, true));
  return found;
}

const named = /\b(?:FROM|JOIN|UPDATE|INTO)\s+"?([a-z_]+)"?/g;
const compared = /\borganisation"?\s*=|\bUSING\s*\(organisation\b|\(organisation\b[^)]*\)\s*(?:=|IN)|\bINSERT INTO\b/g;

/** Statements, or parts of them, that name more of these tables than they compare organisations; as far as that can be read from a text. */
export function unfenced(source: string, tables: ReadonlySet<string>): readonly string[] {
  return stringsIn(source).filter((text) => {
    const count = [...text.matchAll(named)].filter(([, table = '']) => tables.has(table)).length;
    return count > [...text.matchAll(compared)].length;
  });
}
