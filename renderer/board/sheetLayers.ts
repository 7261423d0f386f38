import type { PDFDocumentProxy } from 'pdfjs-dist';

/** A layer of the PDF (an optional-content group). */
export interface SheetLayer {
  readonly id: string;
  readonly name: string;
  /** Whether the file shows it when first opened. */
  readonly isShownAtFirst: boolean;
}

/** The layers of a document in the file's own order of listing; empty where it has none. */
export async function sheetLayers(pdf: PDFDocumentProxy): Promise<readonly SheetLayer[]> {
  const config = await pdf.getOptionalContentConfig({ intent: 'display' });
  const layers: SheetLayer[] = [];
  for (const [id, group] of config) {
    const { name, visible } = group as { readonly name: string | null; readonly visible: boolean };
    layers.push({ id: String(id), name: name ?? String(id), isShownAtFirst: visible });
  }
  return layers;
}
