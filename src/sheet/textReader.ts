import { type AffineMatrix, IDENTITY_MATRIX } from '../geometry/affine.ts';
import { paperPoint } from '../geometry/point.ts';
import { concat } from './currentTransform.ts';
import { OP } from './operatorList.ts';
import type { TextRun } from './textRun.ts';

/** Where the scale of a font's glyph widths comes from: its FontMatrix, or undefined for the usual 1/1000. */
export type FontMatrixOf = (fontName: string) => ArrayLike<number> | undefined;

/** The text part of the graphics state; saved and restored with it (ISO 32000-1, Table 104). */
export interface TextState {
  fontName: string;
  fontSize: number;
  charSpacing: number;
  wordSpacing: number;
  horizontalScale: number;
  leading: number;
  rise: number;
  mode: number;
}

/** The text state that a page begins with (ISO 32000-1, 9.3.1, table 104; from memory). */
export const initialTextState = (): TextState => ({
  fontName: '',
  fontSize: 0,
  charSpacing: 0,
  wordSpacing: 0,
  horizontalScale: 1,
  leading: 0,
  rise: 0,
  mode: 0,
});

/** A gap between glyphs, in font sizes: above the first it is a space, above the second another run. */
const SPACE_GAP = 0.2;
const RUN_GAP = 0.9;

interface Glyph {
  readonly unicode?: string;
  readonly width?: number;
  readonly isSpace?: boolean;
}

/**
 * Follows the text operators and hands on each run that is shown.
 *
 * The positions follow pdf.js's own canvas: glyph advance is width x size x FontMatrix + spacing, scaled by the
 * horizontal scale (ISO 32000-1, 9.4.4).
 */
export const createTextReader = (fontMatrixOf: FontMatrixOf, emit: (run: TextRun) => void) => {
  let matrix: AffineMatrix = IDENTITY_MATRIX;
  let x = 0;
  let y = 0;
  let lineX = 0;
  let lineY = 0;
  const moveText = (dx: number, dy: number): void => {
    x = lineX += dx;
    y = lineY += dy;
  };

  const show = (
    state: TextState,
    glyphs: ArrayLike<unknown>,
    transform: AffineMatrix,
    layer: number | null,
  ): void => {
    const { fontSize, charSpacing, wordSpacing, horizontalScale, rise } = state;
    const widthScale = fontSize * (fontMatrixOf(state.fontName)?.[0] ?? 0.001);
    const map = concat(transform, matrix);
    const unit = Math.hypot(map[0], map[1]);
    const size = Math.abs(fontSize) * Math.hypot(map[2], map[3]);
    const mirror = fontSize < 0 ? -1 : 1;
    const angleRad = Math.atan2(mirror * map[1], mirror * map[0]);
    let text = '';
    let startX = 0;
    let endX = 0;
    let advance = 0;
    const flush = (): void => {
      const isKept = layer !== null && size > 0;
      if (isKept && text.trim() !== '') {
        const atX = x + startX * horizontalScale;
        const atY = y + rise;
        emit({
          text: decoded(text),
          origin: paperPoint(map[0] * atX + map[2] * atY + map[4], map[1] * atX + map[3] * atY + map[5]),
          angleRad,
          size,
          width: Math.abs((endX - startX) * horizontalScale) * unit,
          layer,
          ...(state.mode === 3 || state.mode === 7 ? { isInvisible: true as const } : {}),
        });
      }
      text = '';
    };
    for (let i = 0; i < glyphs.length; i++) {
      const item = glyphs[i];
      if (typeof item === 'number') {
        advance -= (item * fontSize) / 1000;
        continue;
      }
      const glyph = item as Glyph;
      if (text !== '') {
        const gap = (advance - endX) / (fontSize || 1);
        if (gap > RUN_GAP || gap < -RUN_GAP) flush();
        else if (gap > SPACE_GAP && !text.endsWith(' ')) text += ' ';
      }
      if (text === '') startX = advance;
      text += glyph.unicode ?? '';
      endX = advance + (glyph.width ?? 0) * widthScale;
      advance = endX + charSpacing + (glyph.isSpace ? wordSpacing : 0);
    }
    flush();
    x += advance * horizontalScale;
  };

  /** Takes a text operator; answers false for any other. `layer` is null where the text is hidden. */
  const take = (
    fn: number,
    args: ArrayLike<unknown>,
    state: TextState,
    transform: AffineMatrix,
    layer: number | null,
  ): boolean => {
    switch (fn) {
      case OP.beginText:
        matrix = IDENTITY_MATRIX;
        x = y = lineX = lineY = 0;
        return true;
      case OP.setTextMatrix:
        matrix = concat(IDENTITY_MATRIX, (ArrayBuffer.isView(args[0]) ? args[0] : args) as ArrayLike<number>);
        x = y = lineX = lineY = 0;
        return true;
      case OP.moveText:
        moveText(args[0] as number, args[1] as number);
        return true;
      case OP.setLeadingMoveText:
        state.leading = args[1] as number;
        moveText(args[0] as number, args[1] as number);
        return true;
      case OP.nextLine:
        moveText(0, state.leading);
        return true;
      case OP.showText:
        show(state, args[0] as ArrayLike<unknown>, transform, layer);
        return true;
      default:
        return takeTextState(fn, args, state);
    }
  };
  return { take };
};

/**
 * A font without a character map hands on glyph numbers. Most fonts keep their glyphs in the order of ASCII from the
 * space, which is glyph 3 (the standard order of Macintosh glyphs, OpenType `post` format 1; from memory); there a digit
 * comes as a control character, which no text has otherwise. A control character without such digits is a gap.
 */
const decoded = (text: string): string => {
  let hasControls = false;
  let areGlyphNumbers = false;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    hasControls ||= code < ASCII_SPACE;
    areGlyphNumbers ||= code >= GLYPH_OF_0 && code <= GLYPH_OF_0 + 9;
  }
  if (!hasControls) return text;
  const written = (code: number): number =>
    areGlyphNumbers ? code + ASCII_SPACE - GLYPH_OF_SPACE : Math.max(code, ASCII_SPACE);
  return [...text].map((sign) => String.fromCodePoint(written(sign.codePointAt(0)!))).join('');
};

const ASCII_SPACE = 0x20;
const GLYPH_OF_SPACE = 3;
const GLYPH_OF_0 = 19;

const takeTextState = (fn: number, args: ArrayLike<unknown>, state: TextState): boolean => {
  const value = args[0] as number;
  switch (fn) {
    case OP.setFont:
      state.fontName = String(args[0]);
      state.fontSize = args[1] as number;
      return true;
    case OP.setCharSpacing:
      state.charSpacing = value;
      return true;
    case OP.setWordSpacing:
      state.wordSpacing = value;
      return true;
    case OP.setHScale:
      state.horizontalScale = value / 100;
      return true;
    case OP.setLeading:
      state.leading = -value;
      return true;
    case OP.setTextRise:
      state.rise = value;
      return true;
    case OP.setTextRenderingMode:
      state.mode = value;
      return true;
    default:
      return false;
  }
};
