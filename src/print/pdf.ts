import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
// The package exports the class under its name too, but its types know the default only.
// oxlint-disable-next-line import/no-named-as-default
import PDFDocument from "pdfkit";
import SVGtoPDF from "svg-to-pdfkit";
import { faceStyle, fontFiles, type Face } from "./font-files.ts";
import { paperSizes, type Paper } from "./paper.ts";

/** What a PDF says of itself. */
export interface PdfInfo {
  readonly title: string;
  /** Moment it was made; given in, so that the same sheet gives the same bytes. */
  readonly created: Date;
}

/**
 * Pages of SVG as one PDF: vector, its text selectable, the fonts embedded. Node only.
 *
 * @throws Error if an SVG asks for what the PDF cannot show, naming it
 */
export async function pdfOf(pages: readonly string[], paper: Paper, info: PdfInfo): Promise<Uint8Array> {
  const { width, height } = paperSizes[paper];
  const document = new PDFDocument({
    size: [width, height],
    margin: 0,
    autoFirstPage: false,
    lang: "en",
    displayTitle: true,
    info: {
      Title: info.title,
      Creator: "Spyhole",
      Producer: "Spyhole",
      CreationDate: info.created,
      ModDate: info.created,
    },
  });
  const chunks: Uint8Array[] = [];
  const whole = new Promise<Uint8Array>((resolve, reject) => {
    document.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    document.on("end", () => resolve(Buffer.concat(chunks)));
    document.on("error", reject);
  });
  const require = createRequire(import.meta.url);
  const faces = Object.keys(fontFiles) as Face[];
  for (const face of faces) document.registerFont(face, readFileSync(require.resolve(fontFiles[face])));
  for (const page of pages) {
    document.addPage();
    SVGtoPDF(document, page, 0, 0, {
      fontCallback: (family: string, bold: boolean): string => {
        const wanted = faces.filter((each) => faceStyle[each].family === family);
        return wanted.find((each) => faceStyle[each].weight >= 600 === bold) ?? wanted[0] ?? "text";
      },
      warningCallback: (warning: string) => {
        throw new Error(`The sheet could not be drawn: ${warning}`);
      },
    });
  }
  document.end();
  return whole;
}
