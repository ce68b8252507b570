/** The package ships no types. Only what pdf.ts uses. */
declare module "svg-to-pdfkit" {
  interface Options {
    /** Name of a registered font for what the SVG asks for. */
    readonly fontCallback?: (family: string, bold: boolean, italic: boolean) => string;
    readonly warningCallback?: (warning: string) => void;
  }
  export default function SVGtoPDF(
    document: PDFKit.PDFDocument,
    svg: string,
    x: number,
    y: number,
    options?: Options,
  ): void;
}
