import {
  PDFArray,
  PDFBool,
  PDFDict,
  PDFDocument,
  PDFHexString,
  PDFName,
  PDFNumber,
  type PDFObject,
  PDFRef,
  PDFStream,
  PDFString,
} from '@cantoo/pdf-lib';
import { type Box, boxBetween } from '../../geometry/box.ts';
import type { EmbeddedViewport, NumberFormat, RectilinearMeasure } from '../../sheet/embeddedViewport.ts';

/** What the page dictionary says and pdf.js does not pass on. */
export interface RawPage {
  /** MediaBox, inherited where the page has none; undefined where it is missing or no box. */
  readonly mediaBox?: Box;
  readonly viewports: readonly EmbeddedViewport[];
  /** Whether the page has a picture among its resources, drawn or not. */
  readonly hasPicture: boolean;
}

/** Page trees deeper than this are cyclic or hostile. */
const DEEPEST_TREE = 64;

/** More viewports than this on a page are no drawing's. */
const MOST_VIEWPORTS = 1000;

/** Opens a file for its raw page dictionaries; encrypted ones with their password. */
export const openRaw = (bytes: Uint8Array, password: string | undefined): Promise<PDFDocument> =>
  PDFDocument.load(bytes, {
    password: password ?? '',
    updateMetadata: false,
    throwOnInvalidObject: false,
    warnOnInvalidObjects: false,
    parseSpeed: Number.POSITIVE_INFINITY,
  });

/**
 * Reads a page's MediaBox and viewports from its dictionary.
 *
 * @param pageRef the page's object number and generation.
 */
export const readRawPage = (
  document: PDFDocument,
  pageRef: { readonly num: number; readonly gen: number },
): RawPage => {
  const page = document.context.lookup(PDFRef.of(pageRef.num, pageRef.gen));
  if (!(page instanceof PDFDict)) return { viewports: [], hasPicture: false };
  const mediaBox = boxOf(inherited(page, 'MediaBox'));
  const list = page.lookup(PDFName.of('VP'));
  const viewports: EmbeddedViewport[] = [];
  if (list instanceof PDFArray) {
    for (let i = 0; i < Math.min(list.size(), MOST_VIEWPORTS); i++) {
      const viewport = viewportOf(list.lookup(i));
      if (viewport) viewports.push(viewport);
    }
  }
  return { ...(mediaBox ? { mediaBox } : {}), viewports, hasPicture: hasPictureResource(page) };
};

const inherited = (page: PDFDict, key: string): PDFObject | undefined => {
  let node: PDFObject | undefined = page;
  for (let depth = 0; node instanceof PDFDict && depth < DEEPEST_TREE; depth++) {
    const value = node.lookup(PDFName.of(key));
    if (value) return value;
    node = node.lookup(PDFName.of('Parent'));
  }
  return undefined;
};

const hasPictureResource = (page: PDFDict): boolean => {
  const resources = inherited(page, 'Resources');
  const objects = resources instanceof PDFDict ? resources.lookup(PDFName.of('XObject')) : undefined;
  if (!(objects instanceof PDFDict)) return false;
  return objects.keys().some((key) => {
    const object = objects.lookup(key);
    return object instanceof PDFStream && nameOf(object.dict.lookup(PDFName.of('Subtype'))) === 'Image';
  });
};

const numbersOf = (value: PDFObject | undefined): number[] | undefined => {
  if (!(value instanceof PDFArray)) return undefined;
  const numbers: number[] = [];
  for (let i = 0; i < value.size(); i++) {
    const item = value.lookup(i);
    if (!(item instanceof PDFNumber) || !Number.isFinite(item.asNumber())) return undefined;
    numbers.push(item.asNumber());
  }
  return numbers;
};

const boxOf = (value: PDFObject | undefined): Box | undefined => {
  const numbers = numbersOf(value);
  if (numbers?.length !== 4) return undefined;
  const [x0, y0, x1, y1] = numbers as [number, number, number, number];
  const box = boxBetween({ x: x0, y: y0 }, { x: x1, y: y1 });
  return box.minX < box.maxX && box.minY < box.maxY ? box : undefined;
};

const textOf = (value: PDFObject | undefined): string | undefined =>
  value instanceof PDFString || value instanceof PDFHexString ? value.decodeText() : undefined;

const nameOf = (value: PDFObject | undefined): string | undefined =>
  value instanceof PDFName ? value.decodeText() : undefined;

const numberOf = (value: PDFObject | undefined): number | undefined =>
  value instanceof PDFNumber ? value.asNumber() : undefined;

const viewportOf = (value: PDFObject | undefined): EmbeddedViewport | undefined => {
  if (!(value instanceof PDFDict)) return undefined;
  const box = boxOf(value.lookup(PDFName.of('BBox')));
  if (!box) return undefined;
  const name = textOf(value.lookup(PDFName.of('Name')));
  const measure = measureOf(value.lookup(PDFName.of('Measure')));
  return { box, ...(name ? { name } : {}), ...(measure ? { measure } : {}) };
};

const measureOf = (value: PDFObject | undefined): RectilinearMeasure | undefined => {
  if (!(value instanceof PDFDict)) return undefined;
  if ((nameOf(value.lookup(PDFName.of('Subtype'))) ?? 'RL') !== 'RL') return undefined;
  const formats = (key: string): NumberFormat[] => formatsOf(value.lookup(PDFName.of(key)));
  const y = formats('Y');
  const yToX = numberOf(value.lookup(PDFName.of('CYX')));
  return {
    ratioText: textOf(value.lookup(PDFName.of('R'))) ?? '',
    x: formats('X'),
    ...(y.length > 0 ? { y } : {}),
    distance: formats('D'),
    area: formats('A'),
    ...(yToX === undefined ? {} : { yToX }),
  };
};

const formatsOf = (value: PDFObject | undefined): NumberFormat[] => {
  const formats: NumberFormat[] = [];
  if (!(value instanceof PDFArray)) return formats;
  for (let i = 0; i < Math.min(value.size(), 16); i++) {
    const item = value.lookup(i);
    if (item instanceof PDFDict) formats.push(formatOf(item));
  }
  return formats;
};

/** ISO 32000-1, Table 263, with its defaults. */
const formatOf = (dictionary: PDFDict): NumberFormat => {
  const at = (key: string): PDFObject | undefined => dictionary.lookup(PDFName.of(key));
  const fraction = nameOf(at('F'));
  const form = fraction === 'F' || fraction === 'R' || fraction === 'T' ? fraction : 'D';
  const keeps = at('FD');
  return {
    unit: textOf(at('U')) ?? '',
    factor: numberOf(at('C')) ?? 1,
    fraction: form,
    precision: numberOf(at('D')) ?? (form === 'F' ? 16 : 100),
    keepsForm: keeps instanceof PDFBool && keeps.asBoolean(),
    thousands: textOf(at('RT')) ?? ',',
    decimal: textOf(at('RD')) ?? '.',
    labelPrefix: textOf(at('PS')) ?? ' ',
    labelSuffix: textOf(at('SS')) ?? ' ',
    labelPosition: nameOf(at('O')) === 'P' ? 'P' : 'S',
  };
};
