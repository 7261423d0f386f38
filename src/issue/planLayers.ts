import { PDFArray, PDFDict, type PDFDocument, PDFName, PDFRef } from '@cantoo/pdf-lib';

/** Layers are named as pdf.js names an optional content group: by its object, `12R` or `12R1`. */
export const layerRef = (id: string): PDFRef | null => {
  const found = /^(\d+)R(\d*)$/.exec(id);
  return found ? PDFRef.of(Number(found[1]), Number(found[2] || 0)) : null;
};

/**
 * Sets the default state of optional content groups (ISO 32000-1, 8.11.4.3; clause from memory), so that what the
 * operator switched off on the sheet is off on paper too. Where something is switched, the file's rules for showing and
 * printing by themselves (`AS`) go: a viewer would put its own choice over the operator's.
 *
 * @param groupOf the group of the document for a layer's id; null where it has none.
 */
export const switchLayers = (
  document: PDFDocument,
  layers: Readonly<Record<string, boolean>>,
  groupOf: (id: string) => PDFRef | null,
): void => {
  const properties = document.catalog.lookup(PDFName.of('OCProperties'));
  const shown = properties instanceof PDFDict ? properties.lookup(PDFName.of('D')) : undefined;
  if (!(shown instanceof PDFDict)) return;
  for (const [id, isOn] of Object.entries(layers)) {
    const group = groupOf(id);
    if (!group) continue;
    for (const name of ['ON', 'OFF']) {
      const list = shown.lookup(PDFName.of(name));
      const kept = list instanceof PDFArray ? list.asArray().filter((one) => one !== group) : [];
      if ((name === 'ON') === isOn) kept.push(group);
      shown.set(PDFName.of(name), document.context.obj(kept));
    }
    shown.delete(PDFName.of('AS'));
  }
};
