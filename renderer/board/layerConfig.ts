import type { PDFDocumentProxy } from 'pdfjs-dist';

/**
 * Layers (optional-content groups, by id or name) switched on or off against how the file shows them when first
 * opened. Layers that are not named stay as the file has them.
 */
export type LayerSwitches = Readonly<Record<string, boolean>>;

/** pdf.js's configuration for the file's layers with these switches. Names that the file lacks change nothing. */
export async function layerConfig(pdf: PDFDocumentProxy, switches: LayerSwitches) {
  const config = await pdf.getOptionalContentConfig({ intent: 'display' });
  for (const [id, group] of config) {
    const { name } = group as { readonly name: string | null };
    const isOn = switches[String(id)] ?? (name === null ? undefined : switches[name]);
    // Each group on its own: groups that the file ties together as alternatives are the caller's to choose.
    if (isOn !== undefined) config.setVisibility(id, isOn, false);
  }
  return config;
}

/** Whether two sets of switches say the same. */
export function isSameSwitches(a: LayerSwitches, b: LayerSwitches): boolean {
  const names = Object.keys(a);
  return names.length === Object.keys(b).length && names.every((name) => a[name] === b[name]);
}
