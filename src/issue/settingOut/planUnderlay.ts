import {
  decodePDFRawStream,
  PDFArray,
  PDFDict,
  PDFDocument,
  PDFName,
  PDFNumber,
  PDFObjectCopier,
  type PDFPage,
  PDFRawStream,
  PDFRef,
  PDFStream,
} from '@cantoo/pdf-lib';
import { type AffineMatrix, transformBox } from '../../geometry/affine.ts';
import { layerRef, switchLayers } from '../planLayers.ts';

/** A page of a plan as form objects of another document, to be drawn under something. */
export interface PlanUnderlay {
  /** The page's content and its annotations' pictures, each with the matrix from its own to the page's user space. */
  readonly forms: readonly { readonly ref: PDFRef; readonly matrix: AffineMatrix }[];
  readonly rotationDeg: number;
}

const identity: AffineMatrix = [1, 0, 0, 1, 0, 0];

const numbersOf = (array: PDFArray | undefined): readonly number[] =>
  array ? array.asArray().map((value) => (value instanceof PDFNumber ? value.asNumber() : 0)) : [];

const streamsOf = (page: PDFPage): readonly unknown[] => {
  const contents = page.node.Contents();
  if (contents instanceof PDFArray) return contents.asArray().map((_, index) => contents.lookup(index));
  return contents ? [contents] : [];
};

const contentsOf = (streams: readonly unknown[]): Uint8Array => {
  const parts = streams.flatMap((stream): Uint8Array[] =>
    stream instanceof PDFRawStream
      ? [decodePDFRawStream(stream).decode()]
      : stream instanceof PDFStream
        ? [stream.getContents()]
        : [],
  );
  const joined = new Uint8Array(parts.reduce((sum, part) => sum + part.length + 1, 0));
  let at = 0;
  for (const part of parts) {
    joined.set(part, at);
    at += part.length;
    // Streams of a page may part between any two tokens (ISO 32000-1, 7.8.2; clause from memory).
    joined[at] = 0x0a;
    at += 1;
  }
  return joined;
};

/** A page's content as a form: its one stream as it is compressed in the file, or several joined and compressed anew. */
const formOf = (
  page: PDFPage,
  target: PDFDocument,
  copier: PDFObjectCopier,
  entries: Parameters<PDFDocument['context']['flateStream']>[1],
): PDFStream => {
  const streams = streamsOf(page);
  const [only] = streams;
  if (streams.length !== 1 || !(only instanceof PDFRawStream))
    return target.context.flateStream(contentsOf(streams), entries);
  const dict = target.context.obj(entries ?? {});
  for (const key of ['Filter', 'DecodeParms']) {
    const own = only.dict.get(PDFName.of(key));
    if (own) dict.set(PDFName.of(key), copier.copy(own));
  }
  return PDFRawStream.of(dict, only.getContents());
};

const hiddenFlags = 2 | 32;

/** The normal appearance of each visible annotation, placed as ISO 32000-1, 12.5.5, algorithm 8.1 says (from memory). */
const annotationForms = (page: PDFPage, copier: PDFObjectCopier): PlanUnderlay['forms'] => {
  const annotations = page.node.Annots()?.asArray() ?? [];
  return annotations.flatMap((entry): PlanUnderlay['forms'] => {
    const annotation = page.doc.context.lookup(entry);
    if (!(annotation instanceof PDFDict)) return [];
    const flags = annotation.lookup(PDFName.of('F'));
    if (flags instanceof PDFNumber && (flags.asNumber() & hiddenFlags) !== 0) return [];
    if (annotation.lookup(PDFName.of('Subtype')) === PDFName.of('Popup')) return [];
    const appearances = annotation.lookup(PDFName.of('AP'));
    if (!(appearances instanceof PDFDict)) return [];
    let ref = appearances.get(PDFName.of('N'));
    let normal = appearances.lookup(PDFName.of('N'));
    if (normal instanceof PDFDict && !(normal instanceof PDFStream)) {
      const state = annotation.lookup(PDFName.of('AS'));
      if (!(state instanceof PDFName)) return [];
      ref = normal.get(state);
      normal = normal.lookup(state);
    }
    if (!(normal instanceof PDFStream) || !(ref instanceof PDFRef)) return [];
    const rect = numbersOf(annotation.lookup(PDFName.of('Rect'), PDFArray));
    const bbox = numbersOf(normal.dict.lookup(PDFName.of('BBox'), PDFArray));
    const own = normal.dict.lookup(PDFName.of('Matrix'));
    const matrix = own instanceof PDFArray ? (numbersOf(own) as unknown as AffineMatrix) : identity;
    const [rx0 = 0, ry0 = 0, rx1 = 0, ry1 = 0] = rect;
    const [bx0 = 0, by0 = 0, bx1 = 0, by1 = 0] = bbox;
    const shown = transformBox(matrix, {
      minX: Math.min(bx0, bx1),
      minY: Math.min(by0, by1),
      maxX: Math.max(bx0, bx1),
      maxY: Math.max(by0, by1),
    });
    const [width, height] = [shown.maxX - shown.minX, shown.maxY - shown.minY];
    if (!(width > 0 && height > 0)) return [];
    const [sx, sy] = [Math.abs(rx1 - rx0) / width, Math.abs(ry1 - ry0) / height];
    const copied = copier.copy(ref);
    return [
      {
        ref: copied,
        matrix: [sx, 0, 0, sy, Math.min(rx0, rx1) - shown.minX * sx, Math.min(ry0, ry1) - shown.minY * sy],
      },
    ];
  });
};

/** Carries the plan's layers over, so that what is hidden in it stays hidden, with the operator's own switches. */
const carryLayers = (
  source: PDFDocument,
  target: PDFDocument,
  copier: PDFObjectCopier,
  layers: Readonly<Record<string, boolean>>,
): void => {
  const properties = source.catalog.lookup(PDFName.of('OCProperties'));
  if (!(properties instanceof PDFDict)) return;
  const copied = copier.copy(properties);
  target.catalog.set(PDFName.of('OCProperties'), copied);
  switchLayers(target, layers, (id) => {
    const ref = layerRef(id);
    return ref && source.context.lookup(ref) ? copier.copy(ref) : null;
  });
};

/**
 * Brings one page of a plan into a document, still vector, without what does not belong on paper (scripts, links, form
 * fields that act). Throws what the PDF library throws for a file that it can't read.
 *
 * @param page counts from 1.
 */
export const planUnderlay = async (
  target: PDFDocument,
  source: { readonly bytes: Uint8Array; readonly password?: string | undefined },
  pageNumber: number,
  layers: Readonly<Record<string, boolean>>,
): Promise<PlanUnderlay> => {
  const plan = await PDFDocument.load(source.bytes, {
    // Many plans are protected against change alone: they open with an empty password.
    password: source.password ?? '',
    updateMetadata: false,
  });
  const page = plan.getPages()[pageNumber - 1];
  if (!page) throw new Error(`there is no page ${pageNumber}`);
  const copier = PDFObjectCopier.for(plan.context, target.context);
  const resources = page.node.Resources();
  const group = page.node.lookup(PDFName.of('Group'));
  const { x, y, width, height } = page.getCropBox();
  const form = formOf(page, target, copier, {
    Type: 'XObject',
    Subtype: 'Form',
    FormType: 1,
    BBox: [x, y, x + width, y + height],
    Matrix: [...identity],
    ...(resources ? { Resources: copier.copy(resources) } : {}),
    ...(group instanceof PDFDict ? { Group: copier.copy(group) } : {}),
  });
  const forms = [{ ref: target.context.register(form), matrix: identity }, ...annotationForms(page, copier)];
  carryLayers(plan, target, copier, layers);
  return { forms, rotationDeg: ((page.getRotation().angle % 360) + 360) % 360 };
};
