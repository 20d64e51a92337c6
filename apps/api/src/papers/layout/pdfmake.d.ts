/** As much of pdfmake as is used here; it brings no types of its own. */
declare module 'pdfmake' {
  interface Font {
    readonly font: { readonly characterSet: readonly number[] };
  }
  interface PdfDocument {
    provideFont(family: string, bold: boolean, italics: boolean): Font;
  }
  interface Output {
    getStream(): Promise<PdfDocument>;
    getBuffer(): Promise<Buffer>;
  }
  export interface PdfMake {
    /** Files that are read from here in place of the disk. */
    readonly virtualfs: { writeFileSync(file: string, bytes: Buffer): void };
    setFonts(fonts: object): void;
    setUrlAccessPolicy(allow: (url: string) => boolean): void;
    setLocalAccessPolicy(allow: (file: string) => boolean): void;
    setTableLayouts(layouts: object): void;
    createPdf(definition: object): Output;
  }
  const pdfmake: PdfMake;
  export default pdfmake;
}

declare module 'pdfmake/fonts/Roboto.js' {
  const fonts: {
    readonly Roboto: { readonly normal: string; readonly bold: string; readonly italics: string; readonly bolditalics: string };
  };
  export default fonts;
}
