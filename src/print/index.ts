export { loadersSheet } from "./loaders-sheet.ts";
export type { Paper } from "./paper.ts";
export { pdfOf, type PdfInfo } from "./pdf.ts";
export { sheetOf, type SheetChoices, type SheetInput } from "./sheet-input.ts";
