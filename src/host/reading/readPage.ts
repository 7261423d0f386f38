import type { PDFDocumentProxy, PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Box } from '../../geometry/box.ts';
import { type Linework, NO_LAYER } from '../../sheet/linework.ts';
import type { OperatorList } from '../../sheet/operatorList.ts';
import { readOperators } from '../../sheet/readOperators.ts';
import type { SheetLayer, SheetReading } from '../../sheet/sheetReading.ts';
import { openRaw, type RawPage, readRawPage } from './rawPage.ts';
import { ReadingError } from './readingFailure.ts';
import { textOfOutlines } from './textOfOutlines.ts';

/** Layers to switch on or off, by id; the others stay as the file says. */
export type LayerSwitches = Readonly<Record<string, boolean>>;

export interface ReadPageOptions {
  readonly page: number;
  readonly password?: string | undefined;
  readonly layers?: LayerSwitches | undefined;
  /** The file's bytes, for what pdf.js does not pass on. */
  readonly bytes: Uint8Array;
}

/** pdf.js's AnnotationMode.DISABLE: mark-up that others laid over the drawing is not the drawing. */
const WITHOUT_ANNOTATIONS = 0;

/**
 * Reads one page of an open PDF as data.
 *
 * @throws ReadingError `no-such-page`, `page-damaged`.
 */
export const readPage = async (
  document: PDFDocumentProxy,
  options: ReadPageOptions,
): Promise<{ readonly reading: SheetReading; readonly linework: Linework }> => {
  const { page: pageNumber, bytes, password, layers: switches = {} } = options;
  const page = await getPage(document, pageNumber);
  const warnings: string[] = [];
  const viewBox = viewBoxOf(page);
  const optionalContent = await document.getOptionalContentConfig({ intent: 'display' });
  for (const [id, visible] of Object.entries(switches)) optionalContent.setVisibility(id, visible, false);
  const layers: SheetLayer[] = [];
  const indexOfLayer = new Map<string, number>();
  for (const [id, group] of optionalContent) {
    indexOfLayer.set(id, layers.length);
    layers.push({ id, name: String(group.name ?? ''), visible: group.visible });
  }
  const content = readOperators(await operatorsOf(page), {
    viewBox,
    isVisible: (properties) => optionalContent.isVisible(properties),
    layerOf: (properties) => layerIndex(properties, indexOfLayer),
    fontMatrixOf: (name) => fontMatrixOf(page, name),
  });
  const { linework } = content;
  const text = [...content.text, ...(await outlineWords(page, warnings))];
  const isBare = linework.pathCount + text.length + content.pictures.length === 0;
  const raw = await readRaw(bytes, password, page, isBare, warnings);
  // A picture too large to decode leaves no trace among the operators.
  const pictures = isBare && raw.hasPicture ? [viewBox] : content.pictures;
  return {
    reading: {
      pages: document.numPages,
      page: pageNumber,
      mediaBox: raw.mediaBox ?? viewBox,
      viewBox,
      rotation: page.rotate,
      userUnit: page.userUnit,
      layers,
      text,
      pictures,
      viewports: raw.viewports,
      warnings,
    },
    linework,
  };
};

/** Sizes of all pages, without reading what is on them. */
export const readPageSizes = async (
  document: PDFDocumentProxy,
  bytes: Uint8Array,
  password: string | undefined,
  onProgress: (done: number, of: number) => void,
): Promise<readonly PageSize[]> => {
  const sizes: PageSize[] = [];
  const rawDocument = needsRaw(bytes) ? await openRaw(bytes, password).catch(() => null) : null;
  for (let pageNumber = 1; pageNumber <= document.numPages; pageNumber++) {
    try {
      const page = await document.getPage(pageNumber);
      const raw = rawDocument && page.ref ? readRawPage(rawDocument, page.ref) : null;
      const box = raw?.mediaBox ?? viewBoxOf(page);
      sizes.push({ page: pageNumber, mediaBox: box, rotation: page.rotate, userUnit: page.userUnit });
      page.cleanup();
    } catch (error) {
      sizes.push({ page: pageNumber, problem: (error as Error).message });
    }
    onProgress(pageNumber, document.numPages);
  }
  return sizes;
};

export type PageSize =
  | { readonly page: number; readonly mediaBox: Box; readonly rotation: number; readonly userUnit: number }
  | { readonly page: number; readonly problem: string };

const getPage = async (document: PDFDocumentProxy, pageNumber: number): Promise<PDFPageProxy> => {
  const pages = document.numPages;
  if (!Number.isInteger(pageNumber) || pageNumber < 1 || pageNumber > pages) {
    const extent = pages === 1 ? 'one page' : `pages 1 to ${pages}`;
    throw new ReadingError('no-such-page', `There is no page ${pageNumber}: the PDF has ${extent}.`);
  }
  try {
    return await document.getPage(pageNumber);
  } catch (error) {
    throw new ReadingError('page-damaged', `Page ${pageNumber} is damaged (${(error as Error).message}).`);
  }
};

const operatorsOf = async (page: PDFPageProxy): Promise<OperatorList> => {
  try {
    return (await page.getOperatorList({ annotationMode: WITHOUT_ANNOTATIONS })) as OperatorList;
  } catch (error) {
    throw new ReadingError('page-damaged', `The page's content is damaged (${(error as Error).message}).`);
  }
};

const viewBoxOf = (page: PDFPageProxy): Box => {
  const [minX, minY, maxX, maxY] = page.view as [number, number, number, number];
  return { minX, minY, maxX, maxY };
};

/** Words over stroke lettering, where the page's annotations can be read at all. */
const outlineWords = async (
  page: PDFPageProxy,
  warnings: string[],
): Promise<Awaited<ReturnType<typeof textOfOutlines>>> => {
  try {
    return await textOfOutlines(page);
  } catch (error) {
    warnings.push(`The page's annotations could not be read (${(error as Error).message}).`);
    return [];
  }
};

/** Raw dictionaries are worth their time only where the file can hold what pdf.js leaves out. */
const needsRaw = (bytes: Uint8Array): boolean => {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return ['/VP', '/CropBox', '/ObjStm'].some((key) => buffer.includes(key));
};

const readRaw = async (
  bytes: Uint8Array,
  password: string | undefined,
  page: PDFPageProxy,
  isBare: boolean,
  warnings: string[],
): Promise<RawPage> => {
  if (!page.ref || !(isBare || needsRaw(bytes))) return { viewports: [], hasPicture: false };
  try {
    return readRawPage(await openRaw(bytes, password), page.ref);
  } catch (error) {
    warnings.push(`Embedded measures and the MediaBox could not be read (${(error as Error).message}).`);
    return { viewports: [], hasPicture: false };
  }
};

const layerIndex = (properties: unknown, indexOfLayer: ReadonlyMap<string, number>): number => {
  const { id, ids } = (properties ?? {}) as { id?: string; ids?: readonly string[] };
  return indexOfLayer.get(id ?? ids?.[0] ?? '') ?? NO_LAYER;
};

const fontMatrixOf = (page: PDFPageProxy, name: string): ArrayLike<number> | undefined => {
  if (!page.commonObjs.has(name)) return undefined;
  return (page.commonObjs.get(name) as { fontMatrix?: ArrayLike<number> } | null)?.fontMatrix;
};
