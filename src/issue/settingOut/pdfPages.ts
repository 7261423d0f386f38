import fontkit from '@cantoo/fontkit';
import { PDFDocument, type PDFFont, PDFName, PDFNumber, type PDFRef } from '@cantoo/pdf-lib';
import type { PaperPicture, PenFont } from '../drawing/paperPen.ts';
import type { Paper } from './papers.ts';

const pointsPerMm = 72 / 25.4;

/** A document that is being put together page by page, with its one font. */
export interface PdfPages {
  readonly document: PDFDocument;
  readonly font: PenFont;
  readonly addPage: (paper: Paper, picture: PaperPicture, forms: ReadonlyMap<string, PDFRef>) => void;
  readonly bytes: () => Promise<Uint8Array>;
}

/** Fill opacities of the graphics states that pictures may name. */
export const graphicsStates = { PieceVeil: 0.82, PlanVeil: 0.62 } as const;

/** What a function gave for a text is kept: laying out asks for the same words many times over. */
const kept = <Value>(of: (text: string) => Value): ((text: string) => Value) => {
  const found = new Map<string, Value>();
  return (text) => {
    const before = found.get(text);
    if (before !== undefined) return before;
    const value = of(text);
    found.set(text, value);
    return value;
  };
};

const penFontOf = (font: PDFFont): PenFont => {
  const known = new Set(font.getCharacterSet());
  return {
    resource: 'FootrailSans',
    widthOf: kept((text) => font.widthOfTextAtSize(text, 1)),
    encode: kept((text) => font.encodeText(text).toString()),
    has: (character) => known.has(character.codePointAt(0) ?? -1),
  };
};

/**
 * Starts an empty document. Nothing in it depends on when or where it is written, beyond `at`.
 *
 * @param fontBytes a TrueType font, embedded as a subset.
 * @param about what the file says of itself.
 */
export const startPdf = async (
  fontBytes: Uint8Array,
  about: { readonly title: string; readonly subject: string; readonly at: string },
): Promise<PdfPages> => {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.registerFontkit(fontkit);
  const font = await document.embedFont(fontBytes, { subset: true });
  const moment = new Date(about.at);
  document.setTitle(about.title);
  document.setSubject(about.subject);
  document.setCreator('Footrail');
  document.setProducer('Footrail');
  document.setCreationDate(moment);
  document.setModificationDate(moment);
  const states = Object.fromEntries(
    Object.entries(graphicsStates).map(([name, opacity]) => [
      name,
      document.context.register(document.context.obj({ Type: 'ExtGState', ca: opacity })),
    ]),
  );
  return {
    document,
    font: penFontOf(font),
    addPage: ({ widthMm, heightMm }, { content }, forms) => {
      const page = document.addPage([widthMm * pointsPerMm, heightMm * pointsPerMm]);
      const scaled = `q ${pointsPerMm} 0 0 ${pointsPerMm} 0 0 cm 1 j\n${content}Q\n`;
      page.node.set(
        PDFName.of('Resources'),
        document.context.obj({
          Font: { FootrailSans: font.ref },
          ExtGState: states,
          XObject: Object.fromEntries(forms),
        }),
      );
      page.node.set(PDFName.of('Contents'), document.context.register(document.context.flateStream(scaled)));
      page.node.set(PDFName.of('UserUnit'), PDFNumber.of(1));
    },
    bytes: () => document.save({ useObjectStreams: false }),
  };
};
