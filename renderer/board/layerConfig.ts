import type { PDFDocumentProxy } from 'pdfjs-dist';

/** Layers, by id or name, that differ from how the file shows them when first opened. */
export interface LayerChoice {
  readonly hidden: readonly string[];
  readonly shown: readonly string[];
}

/** pdf.js's configuration for a choice of layers. Names that the file lacks change nothing. */
export async function layerConfig(pdf: PDFDocumentProxy, choice: LayerChoice) {
  const config = await pdf.getOptionalContentConfig({ intent: 'display' });
  for (const [id, group] of config) {
    const { name } = group as { readonly name: string | null };
    const isNamed = (layers: readonly string[]): boolean =>
      layers.includes(String(id)) || (name !== null && layers.includes(name));
    // Each group on its own: groups that the file ties together as alternatives are the caller's to choose.
    if (isNamed(choice.shown)) config.setVisibility(id, true, false);
    if (isNamed(choice.hidden)) config.setVisibility(id, false, false);
  }
  return config;
}
