/** What a page is built from: text, nodes and lists of them. Plain data, so that it can be handed to another thread; as pdfmake reads it. */
export type Content = string | Node | readonly Content[];

export interface Node {
  readonly text?: Content;
  readonly stack?: readonly Content[];
  readonly columns?: readonly Content[];
  readonly table?: {
    readonly headerRows?: number; readonly keepWithHeaderRows?: number; readonly dontBreakRows?: boolean;
    readonly widths: readonly (number | '*' | 'auto')[]; readonly body: readonly (readonly Content[])[];
  };
  readonly canvas?: readonly { readonly type: 'rect' | 'line'; readonly [measure: string]: number | string }[];
  readonly layout?: 'ruled' | 'boxed' | 'noBorders' | 'band';
  readonly style?: string | readonly string[];
  readonly bold?: boolean; readonly italics?: boolean; readonly fontSize?: number; readonly color?: string; readonly fillColor?: string;
  readonly alignment?: 'left' | 'right' | 'center'; readonly margin?: readonly [number, number, number, number];
  readonly colSpan?: number; readonly width?: number | '*' | 'auto'; readonly columnGap?: number; readonly lineHeight?: number;
  readonly unbreakable?: boolean; readonly pageBreak?: 'before' | 'after'; readonly wordBreak?: 'break-all'; readonly headlineLevel?: number;
}

/** A cell's text. A code or hash too long for its column is broken anywhere instead of running into the next one. */
export function cell(text: string, of: Omit<Node, 'text'> = {}): Node {
  return { text, ...(/\S{15,}/.test(text) ? { wordBreak: 'break-all' as const } : {}), ...of };
}
