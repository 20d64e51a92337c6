import path from 'node:path';
import ts from 'typescript';

/** A property whose type was written by hand where it should come from the schema. */
export interface ByHand {
  readonly file: string;
  readonly line: number;
  readonly text: string;
}

const { SyntaxKind: is } = ts;
const primitives = new Set<ts.SyntaxKind>([is.StringKeyword, is.NumberKeyword, is.BooleanKeyword, is.BigIntKeyword, is.UnknownKeyword]);

/** A primitive, words or values, a list or a record of them, or null with one of them: nothing in it names a column. */
function bare(type: ts.TypeNode): boolean {
  if (ts.isUnionTypeNode(type)) return type.types.every(bare);
  if (ts.isArrayTypeNode(type)) return bare(type.elementType);
  if (ts.isTypeOperatorNode(type) || ts.isParenthesizedTypeNode(type)) return bare(type.type);
  if (ts.isTypeReferenceNode(type) && /^(Readonly|ReadonlyArray|Array|Record|Date|Buffer)$/.test(type.typeName.getText()))
    return (type.typeArguments ?? []).every(bare);
  return primitives.has(type.kind) || ts.isLiteralTypeNode(type);
}

/** Packages that say what is shown or sent: a row that is typed by them is typed by its reader, not by its table. */
const readers = /^@bakehouse\/(contracts|views|graph)$/;

const asking = /\b(query|ask)</;

/** The source files that are looked at, by their paths, and where their imports lead. */
export class Sources {
  private readonly parsed = new Map<string, ts.SourceFile>();

  constructor(private readonly texts: Readonly<Record<string, string>>) {}

  private at(file: string): ts.SourceFile | undefined {
    const text = this.texts[file];
    const source =
      this.parsed.get(file) ?? (text === undefined ? undefined : ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true));
    if (source) this.parsed.set(file, source);
    return source;
  }

  /** What is typed by hand: every property in a query file, and in any file what the rows of a `query<…>` or `ask<…>` are made of. */
  byHand(): ByHand[] {
    const found = new Map<ts.Node, ByHand>();
    const say = (node: ts.Node): void => {
      const source = node.getSourceFile();
      const line = source.getLineAndCharacterOfPosition(node.getStart()).line + 1;
      found.set(node, { file: source.fileName, line, text: node.getText() });
    };
    for (const [file, text] of Object.entries(this.texts)) {
      const asks = file.endsWith('.query.ts');
      const source = asks || asking.test(text) ? this.at(file) : undefined;
      if (!source) continue;
      if (asks) bareProperties(source).forEach(say);
      for (const row of rowTypes(source)) this.through(row, new Set(), say);
    }
    return [...found.values()];
  }

  /** Looks at a row's type and at every type of ours that it names, wherever that is declared. */
  private through(node: ts.Node, seen: Set<ts.Node>, say: (node: ts.Node) => void): void {
    if (seen.has(node)) return;
    seen.add(node);
    bareProperties(node).forEach(say);
    for (const name of namesIn(node)) {
      const declared = this.declaration(name.text, node.getSourceFile());
      if (declared === 'a reader’s') say(name);
      else if (declared) this.through(declared, seen, say);
    }
  }

  private declaration(name: string, source: ts.SourceFile): ts.Node | 'a reader’s' | undefined {
    for (const s of source.statements) {
      if ((ts.isInterfaceDeclaration(s) || ts.isTypeAliasDeclaration(s)) && s.name.text === name) return s;
      const from = namesFrom(s);
      if (!from?.names.includes(name)) continue;
      if (readers.test(from.module)) return 'a reader’s';
      const to = this.at(path.posix.join(path.posix.dirname(source.fileName), from.module.replace(/\.js$/, '.ts')));
      if (to) return this.declaration(name, to);
    }
    return undefined;
  }
}

/** What a statement takes from another file, to use it or to hand it on. */
function namesFrom(s: ts.Statement): { readonly module: string; readonly names: readonly string[] } | undefined {
  if (!ts.isImportDeclaration(s) && !ts.isExportDeclaration(s)) return undefined;
  const named = ts.isImportDeclaration(s) ? s.importClause?.namedBindings : s.exportClause;
  if (!named || !s.moduleSpecifier || !ts.isStringLiteral(s.moduleSpecifier)) return undefined;
  const elements = ts.isNamedImports(named) || ts.isNamedExports(named) ? [...named.elements] : [];
  return { module: s.moduleSpecifier.text, names: elements.map((e) => e.name.text) };
}

function each(node: ts.Node, visit: (node: ts.Node) => void): void {
  visit(node);
  node.forEachChild((child) => each(child, visit));
}

function bareProperties(under: ts.Node): ts.Node[] {
  const found: ts.Node[] = [];
  each(under, (n) => {
    if (ts.isPropertySignature(n) && n.type && bare(n.type)) found.push(n);
  });
  return found;
}

function rowTypes(source: ts.SourceFile): ts.TypeNode[] {
  const found: ts.TypeNode[] = [];
  each(source, (n) => {
    if (ts.isCallExpression(n) && /(^ask|\.query)$/.test(n.expression.getText())) found.push(...(n.typeArguments ?? []));
  });
  return found;
}

/** The types that a type names. What narrows a column (the second of `Holds`) may be a reader's. */
function namesIn(node: ts.Node): ts.Identifier[] {
  const found: ts.Identifier[] = [];
  const visit = (n: ts.Node): void => {
    if (ts.isTypeReferenceNode(n) && ts.isIdentifier(n.typeName)) {
      found.push(n.typeName);
      n.typeArguments?.slice(0, n.typeName.text === 'Holds' ? 1 : undefined).forEach(visit);
    } else if (ts.isExpressionWithTypeArguments(n) && ts.isIdentifier(n.expression)) {
      found.push(n.expression);
      n.typeArguments?.forEach(visit);
    } else n.forEachChild(visit);
  };
  visit(node);
  return found;
}
