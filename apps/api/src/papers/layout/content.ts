/** What a page is built from: text, nodes and lists of them. Plain data, so that it can be handed to another thread; as pdfmake reads it. */
export type Content = string | Node | readonly Content[];

export interface Node {
  readonly text?: Content;
  readonly stack?: readonly Content[];
  readonly columns?: readonly Content[];
  readonly table?: {
    readonly headerRows?: number;
    readonly keepWithHeaderRows?: number;
    readonly dontBreakRows?: boolean;
    readonly widths: readonly (number | '*' | 'auto')[];
    readonly body: readonly (readonly Content[])[];
  };
  readonly canvas?: readonly {
    readonly type: 'rect' | 'line';
    readonly dash?: { readonly length: number; readonly space: number };
    readonly [measure: string]: number | string | { readonly length: number; readonly space: number } | undefined;
  }[];
  /** The stamp of the house of this name, drawn when the paper is. */
  readonly stamp?: string;
  readonly svg?: string;
  /** A text as a QR code (ISO/IEC 18004), at most `fit` points wide; its quiet margin is the node's. */
  readonly qr?: string;
  readonly fit?: number;
  readonly eccLevel?: 'M';
  readonly font?: string;
  readonly layout?: 'ruled' | 'rows' | 'grid' | 'tight' | 'lines' | 'plain' | 'boxed' | 'masthead' | 'foot' | 'noBorders' | 'band';
  readonly style?: string | readonly string[];
  readonly bold?: boolean;
  readonly italics?: boolean;
  readonly fontSize?: number;
  readonly color?: string;
  readonly decoration?: 'underline';
  readonly decorationStyle?: 'dashed';
  readonly fillColor?: string;
  readonly alignment?: 'left' | 'right' | 'center';
  readonly margin?: readonly [number, number, number, number];
  readonly colSpan?: number;
  readonly width?: number | '*' | 'auto';
  readonly columnGap?: number;
  readonly lineHeight?: number;
  readonly unbreakable?: boolean;
  readonly pageBreak?: 'before' | 'after';
  /** From here on; it begins a page. */
  readonly pageOrientation?: 'portrait' | 'landscape';
  readonly id?: string;
  /** Prints the number of the page on which the node with this id stands. */
  readonly pageReference?: string;
  readonly noWrap?: boolean;
  readonly wordBreak?: 'break-all';
  readonly headlineLevel?: number;
}

/** A cell's text. */
export const cell = (text: string, of: Omit<Node, 'text'> = {}): Node => ({ text, ...of });

/** The same content with every word longer than `longest` characters (a hash, a lot code) made to break anywhere, so that it never runs into the next column. */
export function breakLong(content: Content, longest: number): Content {
  if (typeof content === 'string') return runsOf(content, longest);
  if (isList(content)) return content.map((inner) => breakLong(inner, longest));
  const { text, stack, columns } = content;
  return {
    ...content,
    ...(text === undefined ? {} : { text: breakLong(text, longest) }),
    ...(stack ? { stack: stack.map((c) => breakLong(c, longest)) } : {}),
    ...(columns ? { columns: columns.map((c) => breakLong(c, longest)) } : {}),
  };
}

const isList = (content: Content): content is readonly Content[] => Array.isArray(content);

function runsOf(text: string, longest: number): Content {
  const parts = text.split(new RegExp(`(\\S{${longest},})`, 'u'));
  if (parts.length === 1) return text;
  return parts.flatMap((part, i): Content[] => (part === '' ? [] : [i % 2 === 0 ? part : { text: part, wordBreak: 'break-all' }]));
}
