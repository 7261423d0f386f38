import { type AffineMatrix, IDENTITY_MATRIX } from '../geometry/affine.ts';
import type { Box } from '../geometry/box.ts';
import { type ClipRegion, clipToBox, clipToRings, isEmptyClip } from './clipRegion.ts';
import { concat, meanScale } from './currentTransform.ts';
import { type Linework, NO_LAYER, PATH_FLAG } from './linework.ts';
import { createLineworkBuilder } from './lineworkBuilder.ts';
import { OP, type OperatorList } from './operatorList.ts';
import { addPath, clipToPath } from './pathReader.ts';
import { createTextReader, type FontMatrixOf, initialTextState, type TextState } from './textReader.ts';
import { type TextRun, textCentre } from './textRun.ts';

/** What a page's operators draw. */
export interface PageContent {
  readonly linework: Linework;
  readonly text: readonly TextRun[];
  /** Upright boxes of the pictures on the page, in user-space units. */
  readonly pictures: readonly Box[];
}

export interface ReadOperatorsOptions {
  /** The visible part of the page: its CropBox within its MediaBox, in user-space units. */
  readonly viewBox: Box;
  /** Whether marked content with these optional-content properties is shown; all is where not given. */
  readonly isVisible?: (properties: unknown) => boolean;
  /** The layer index of optional-content properties; NO_LAYER for none. */
  readonly layerOf?: (properties: unknown) => number;
  readonly fontMatrixOf?: FontMatrixOf;
}

interface GraphicsState {
  transform: AffineMatrix;
  clip: ClipRegion;
  lineWidth: number;
  stroke: number;
  fill: number;
  strokeAlpha: number;
  fillAlpha: number;
  isDashed: boolean;
  text: TextState;
}

const PICTURE_OPS: ReadonlySet<number> = new Set([
  OP.paintImageMaskXObject,
  OP.paintImageMaskXObjectGroup,
  OP.paintImageXObject,
  OP.paintInlineImageXObject,
  OP.paintInlineImageXObjectGroup,
  OP.paintImageXObjectRepeat,
  OP.paintImageMaskXObjectRepeat,
]);

/**
 * Turns a page's operators into linework, text and pictures, all in the page's unrotated user space: whatever
 * /Rotate, /UserUnit and the page boxes say, the operators start from that space.
 *
 * Left out: what is clipped away or transparent, what lies on a hidden layer, soft masks, annotations, and the
 * insides of fill patterns and glyphs.
 */
export const readOperators = (operators: OperatorList, options: ReadOperatorsOptions): PageContent => {
  const {
    viewBox,
    isVisible = () => true,
    layerOf = () => NO_LAYER,
    fontMatrixOf = () => undefined,
  } = options;
  const { fnArray, argsArray } = operators;
  const builder = createLineworkBuilder();
  const text: TextRun[] = [];
  const pictures: Box[] = [];
  const reader = createTextReader(fontMatrixOf, (run) => {
    if (isInBox(textCentre(run), state.clip.box)) text.push(run);
  });

  let state: GraphicsState = {
    transform: IDENTITY_MATRIX,
    clip: clipToBox(viewBox),
    lineWidth: 1,
    stroke: 0,
    fill: 0,
    strokeAlpha: 1,
    fillAlpha: 1,
    isDashed: false,
    text: initialTextState(),
  };
  const saved: GraphicsState[] = [];
  const marked: { readonly visible: boolean; readonly layer: number }[] = [];
  let visible = true;
  let layer: number = NO_LAYER;
  let pendingClip: 'nonzero' | 'evenodd' | null = null;
  /** Depth of soft-mask groups and annotations, whose content is not the page's own drawing. */
  let outside = 0;

  const save = (): void => {
    saved.push(state);
    state = { ...state, text: { ...state.text } };
  };
  const restore = (): void => {
    state = saved.pop() ?? state;
  };
  const clipToRectangle = (box: ArrayLike<number>, transform: AffineMatrix): void => {
    state.clip = clipToRings(state.clip, [corners(box, transform)], false);
  };
  const updateMarked = (): void => {
    visible = marked.every((mark) => mark.visible);
    layer = marked.findLast((mark) => mark.layer !== NO_LAYER)?.layer ?? NO_LAYER;
  };

  const paintPath = (paint: number, data: ArrayLike<number> | null): void => {
    const isStroked = STROKING.has(paint) && state.strokeAlpha > 0 && state.stroke >= 0;
    const isFilled = FILLING.has(paint) && state.fillAlpha > 0 && state.fill >= 0;
    if (data && visible && outside === 0 && (isStroked || isFilled) && !isEmptyClip(state.clip)) {
      builder.startPath({
        flags:
          (isStroked ? PATH_FLAG.stroked : 0) |
          (isFilled ? PATH_FLAG.filled : 0) |
          (isStroked && state.isDashed ? PATH_FLAG.dashed : 0),
        width: isStroked ? state.lineWidth * meanScale(state.transform) : 0,
        stroke: Math.max(0, state.stroke),
        fill: Math.max(0, state.fill),
        layer,
      });
      addPath(builder, data, state.transform, state.clip, isFilled);
    }
    if (pendingClip) state.clip = clipToPath(state.clip, data, state.transform, pendingClip === 'evenodd');
    pendingClip = null;
  };

  for (let i = 0; i < fnArray.length; i++) {
    const fn = fnArray[i]!;
    const args = argsArray[i] ?? [];
    switch (fn) {
      case OP.constructPath:
        paintPath(args[0] as number, (args[1] as ArrayLike<ArrayLike<number> | null>)[0] ?? null);
        break;
      case OP.save:
        save();
        break;
      case OP.restore:
        restore();
        break;
      case OP.transform:
        state.transform = concat(state.transform, args as ArrayLike<number>);
        break;
      case OP.clip:
        pendingClip = 'nonzero';
        break;
      case OP.eoClip:
        pendingClip = 'evenodd';
        break;
      case OP.setLineWidth:
        state.lineWidth = args[0] as number;
        break;
      case OP.setDash:
        state.isDashed = isDash(args[0]);
        break;
      case OP.setStrokeRGBColor:
        state.stroke = colourOf(args);
        break;
      case OP.setFillRGBColor:
        state.fill = colourOf(args);
        break;
      case OP.setStrokeColorN:
        state.stroke = 0;
        break;
      case OP.setFillColorN:
        state.fill = 0;
        break;
      case OP.setStrokeTransparent:
        state.stroke = -1;
        break;
      case OP.setFillTransparent:
        state.fill = -1;
        break;
      case OP.setGState:
        applyGraphicsState(state, args[0] as ArrayLike<readonly [string, unknown]>);
        break;
      case OP.beginMarkedContent:
        marked.push({ visible: true, layer: NO_LAYER });
        break;
      case OP.beginMarkedContentProps:
        marked.push(
          args[0] === 'OC'
            ? { visible: isVisible(args[1]), layer: layerOf(args[1]) }
            : { visible: true, layer: NO_LAYER },
        );
        updateMarked();
        break;
      case OP.endMarkedContent:
        marked.pop();
        updateMarked();
        break;
      case OP.paintFormXObjectBegin:
        save();
        if (args[0]) state.transform = concat(state.transform, args[0] as ArrayLike<number>);
        if (args[1]) clipToRectangle(args[1] as ArrayLike<number>, state.transform);
        break;
      case OP.beginGroup: {
        const group = args[0] as {
          matrix?: ArrayLike<number> | null;
          bbox?: ArrayLike<number> | null;
          smask?: unknown;
        };
        save();
        if (group.smask || outside > 0) outside++;
        if (group.bbox) {
          clipToRectangle(group.bbox, group.matrix ? concat(state.transform, group.matrix) : state.transform);
        }
        break;
      }
      case OP.paintFormXObjectEnd:
        restore();
        break;
      case OP.endGroup:
        if (outside > 0) outside--;
        restore();
        break;
      case OP.beginAnnotation:
        outside++;
        break;
      case OP.endAnnotation:
        if (outside > 0) outside--;
        break;
      default:
        if (PICTURE_OPS.has(fn)) {
          const box = pictureBox(state, visible && outside === 0);
          if (box) pictures.push(box);
        } else {
          const shownLayer = visible && outside === 0 && !isEmptyClip(state.clip) ? layer : null;
          reader.take(fn, args, state.text, state.transform, shownLayer);
        }
    }
  }
  return { linework: builder.finish(), text, pictures };
};

const STROKING: ReadonlySet<number> = new Set([
  OP.stroke,
  OP.closeStroke,
  OP.fillStroke,
  OP.eoFillStroke,
  OP.closeFillStroke,
  OP.closeEOFillStroke,
]);

const FILLING: ReadonlySet<number> = new Set([
  OP.fill,
  OP.eoFill,
  OP.fillStroke,
  OP.eoFillStroke,
  OP.closeFillStroke,
  OP.closeEOFillStroke,
]);

/** The four corners of a box [x0, y0, x1, y1] after a transform, as [x, y, …]. */
const corners = (box: ArrayLike<number>, [a, b, c, d, e, f]: AffineMatrix): number[] => {
  const ring: number[] = [];
  for (const [i, j] of [
    [0, 1],
    [2, 1],
    [2, 3],
    [0, 3],
  ] as const) {
    const x = box[i]!;
    const y = box[j]!;
    ring.push(a * x + c * y + e, b * x + d * y + f);
  }
  return ring;
};

const isDash = (dashes: unknown): boolean => {
  const list = (dashes ?? []) as ArrayLike<number>;
  for (let i = 0; i < list.length; i++) if (list[i]! > 0) return true;
  return false;
};

/** pdf.js hands colours on as "#rrggbb" or as three bytes. */
const colourOf = (args: ArrayLike<unknown>): number => {
  if (typeof args[0] === 'string') return Number.parseInt(args[0].slice(1), 16) || 0;
  return (
    (((args[0] as number) & 255) << 16) | (((args[1] as number) & 255) << 8) | ((args[2] as number) & 255)
  );
};

const applyGraphicsState = (state: GraphicsState, entries: ArrayLike<readonly [string, unknown]>): void => {
  for (let i = 0; i < entries.length; i++) {
    const [key, value] = entries[i]!;
    if (key === 'LW') state.lineWidth = value as number;
    else if (key === 'CA') state.strokeAlpha = value as number;
    else if (key === 'ca') state.fillAlpha = value as number;
    else if (key === 'D') state.isDashed = isDash((value as ArrayLike<unknown>)[0]);
    else if (key === 'Font') {
      const font = value as readonly [string, number];
      state.text.fontName = String(font[0]);
      state.text.fontSize = font[1];
    }
  }
};

/** A picture fills the unit square of its space (ISO 32000-1, 8.9.5). */
const pictureBox = ({ transform, clip }: GraphicsState, isShown: boolean): Box | null => {
  if (!isShown || isEmptyClip(clip)) return null;
  const square = corners([0, 0, 1, 1], transform);
  const xs = square.filter((_, i) => i % 2 === 0);
  const ys = square.filter((_, i) => i % 2 === 1);
  const box: Box = {
    minX: Math.max(clip.box.minX, Math.min(...xs)),
    minY: Math.max(clip.box.minY, Math.min(...ys)),
    maxX: Math.min(clip.box.maxX, Math.max(...xs)),
    maxY: Math.min(clip.box.maxY, Math.max(...ys)),
  };
  return box.minX < box.maxX && box.minY < box.maxY ? box : null;
};

const isInBox = (
  { x, y }: { readonly x: number; readonly y: number },
  { minX, minY, maxX, maxY }: Box,
): boolean => x >= minX - 1 && x <= maxX + 1 && y >= minY - 1 && y <= maxY + 1;
