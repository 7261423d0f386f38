import { createCanvas } from '@napi-rs/canvas';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { RunId, SheetId, VertexId } from '../../src/document/ids.ts';
import { emptyDocument, type ProjectDocument } from '../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../src/document/runDefaults.ts';
import { type Point, paperPoint } from '../../src/geometry/point.ts';
import { demoRange } from '../../src/stock/demoRange.ts';

export const tracedSheetId = 'sheet-1' as SheetId;
export const tracedRunId = 'run-1' as RunId;

/** A document whose one run is traced through places of a plan's unrotated user space. */
export const tracedDocument = (plan: {
  readonly frontLine: readonly Point[];
  readonly depthMm: number;
  readonly ratio: number;
  readonly userUnit: number;
  readonly pageNumber?: number;
}): ProjectDocument => ({
  ...emptyDocument('Traced', { id: demoRange.id, version: demoRange.version }),
  sheetIds: [tracedSheetId],
  sheets: {
    [tracedSheetId]: {
      id: tracedSheetId,
      name: 'Plan',
      planSha256: '0'.repeat(64),
      planFileName: 'plan.pdf',
      pageNumber: plan.pageNumber ?? 1,
      userUnit: plan.userUnit,
      acceptedScale: { ratio: plan.ratio, relativeUncertainty: 0.002, because: 'test' },
      layers: {},
    },
  },
  runIds: [tracedRunId],
  runs: {
    [tracedRunId]: {
      ...runDefaultsOf(demoRange),
      id: tracedRunId,
      sheetId: tracedSheetId,
      name: 'Counter',
      backSide: 'left',
      depthMm: plan.depthMm,
      frontLine: plan.frontLine.map(({ x, y }, index) => ({
        id: `vertex-${index}` as VertexId,
        at: paperPoint(x, y),
        treatment: null,
      })),
      ends: [
        { kind: 'wall', giveInMm: 0, giveOutMm: 0 },
        { kind: 'wall', giveInMm: 0, giveOutMm: 0 },
      ],
      pickUncertaintyPt: 0.05,
    },
  },
});

export interface RenderedPage {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue from 0 to 255; white beyond the page. */
  readonly colourAt: (x: number, y: number) => readonly [red: number, green: number, blue: number];
  /** From the page's unrotated user space to pixels, as pdf.js itself reckons it. */
  readonly toPixel: (userSpace: Point) => Point;
  readonly rotate: number;
  readonly userUnit: number;
  readonly view: readonly number[];
}

/**
 * Renders a page with pdf.js on a canvas of its own: it had no part in writing the file.
 *
 * @param scale pixels in a point (UserUnit included).
 */
export const renderPage = async (
  bytes: Uint8Array,
  page: { readonly number?: number; readonly scale: number; readonly password?: string | undefined },
): Promise<RenderedPage> => {
  const task = getDocument({
    data: bytes.slice(),
    verbosity: 0,
    ...(page.password === undefined ? {} : { password: page.password }),
  });
  try {
    const document = await task.promise;
    const source = await document.getPage(page.number ?? 1);
    const viewport = source.getViewport({ scale: page.scale });
    const [width, height] = [Math.ceil(viewport.width), Math.ceil(viewport.height)];
    const canvas = createCanvas(width, height);
    const context = canvas.getContext('2d');
    context.fillStyle = 'white';
    context.fillRect(0, 0, width, height);
    await source.render({ canvas: canvas as never, canvasContext: context as never, viewport }).promise;
    const { data } = context.getImageData(0, 0, width, height);
    return {
      width,
      height,
      colourAt: (x, y) => {
        const [px, py] = [Math.round(x), Math.round(y)];
        if (px < 0 || py < 0 || px >= width || py >= height) return [255, 255, 255];
        const at = (py * width + px) * 4;
        return [data[at]!, data[at + 1]!, data[at + 2]!];
      },
      toPixel: ({ x, y }) => {
        const [px = 0, py = 0] = viewport.convertToViewportPoint(x, y);
        return { x: px, y: py };
      },
      rotate: source.rotate,
      userUnit: source.userUnit,
      view: source.view,
    };
  } finally {
    await task.destroy();
  }
};

/** The blue of a front line: clearly more blue than red, whatever lies around it. */
export const isBlue = ([red, green, blue]: readonly [number, number, number]): boolean =>
  blue - red > 60 && blue - green > 15;

/** Whether a colour that passes a test lies within `reach` pixels of a place. */
export const isNear = (
  page: RenderedPage,
  { x, y }: Point,
  reach: number,
  passes: (colour: readonly [number, number, number]) => boolean,
): boolean => {
  for (let dx = -reach; dx <= reach; dx += 1)
    for (let dy = -reach; dy <= reach; dy += 1) if (passes(page.colourAt(x + dx, y + dy))) return true;
  return false;
};
