import {
  appendBezierCurve,
  beginText,
  clip,
  closePath,
  endPath,
  endText,
  fill,
  lineTo,
  moveTo,
  type PDFFont,
  type PDFName,
  type PDFOperator,
  popGraphicsState,
  pushGraphicsState,
  setDashPattern,
  setFillingRgbColor,
  setFontAndSize,
  setLineCap,
  setLineWidth,
  setStrokingRgbColor,
  setTextMatrix,
  showText,
  stroke,
} from '@cantoo/pdf-lib';
import type { Point } from '../../geometry/point.ts';
import { DIGIT_SPACE, NO_BREAK_SPACE } from '../../units/digitGroups.ts';

/** A colour as PDF has it: red, green, blue from 0 to 1. */
export type Rgb = readonly [red: number, green: number, blue: number];

export interface LineWeight {
  /** In points of paper. */
  readonly widthPt: number;
  readonly colour: Rgb;
  readonly dashPt?: readonly number[];
}

export interface Lettering {
  readonly text: string;
  /** The middle of the text. */
  readonly at: Point;
  /** Direction that the text follows, anticlockwise from +x of the unrotated page. */
  readonly angleRad: number;
  readonly heightPt: number;
  readonly colour: Rgb;
}

/**
 * Writes page operators for lines, areas and letters over a plan, in the page’s unrotated user space. Weights and
 * heights are in points of paper, whatever the page’s UserUnit.
 */
export class OverlayPen {
  readonly operators: PDFOperator[] = [];
  readonly #userUnit: number;
  readonly #font: PDFFont;
  readonly #fontKey: PDFName;

  constructor(page: { readonly userUnit: number; readonly font: PDFFont; readonly fontKey: PDFName }) {
    this.#userUnit = page.userUnit;
    this.#font = page.font;
    this.#fontKey = page.fontKey;
  }

  /** A length in points of paper as user-space units. */
  units(pt: number): number {
    return pt / this.#userUnit;
  }

  #path(points: readonly Point[], isClosed: boolean): void {
    for (const [index, { x, y }] of points.entries())
      this.operators.push(index === 0 ? moveTo(x, y) : lineTo(x, y));
    if (isClosed) this.operators.push(closePath());
  }

  #weigh({ widthPt, colour, dashPt = [] }: LineWeight): void {
    this.operators.push(
      setStrokingRgbColor(...colour),
      setLineWidth(this.units(widthPt)),
      setDashPattern(
        dashPt.map((length) => this.units(length)),
        0,
      ),
      setLineCap(0),
    );
  }

  line(points: readonly Point[], weight: LineWeight): void {
    this.operators.push(pushGraphicsState());
    this.#weigh(weight);
    this.#path(points, false);
    this.operators.push(stroke(), popGraphicsState());
  }

  outline(ring: readonly Point[], weight: LineWeight): void {
    this.operators.push(pushGraphicsState());
    this.#weigh(weight);
    this.#path(ring, true);
    this.operators.push(stroke(), popGraphicsState());
  }

  area(ring: readonly Point[], colour: Rgb): void {
    this.operators.push(pushGraphicsState(), setFillingRgbColor(...colour));
    this.#path(ring, true);
    this.operators.push(fill(), popGraphicsState());
  }

  dot(at: Point, radiusPt: number, colour: Rgb): void {
    const radius = this.units(radiusPt);
    // Four cubic arcs: the usual constant 4/3 (sqrt 2 - 1) puts the curve within 0.03 % of the circle.
    const pull = radius * (4 / 3) * (Math.SQRT2 - 1);
    const { x, y } = at;
    this.operators.push(
      pushGraphicsState(),
      setFillingRgbColor(...colour),
      moveTo(x + radius, y),
      appendBezierCurve(x + radius, y + pull, x + pull, y + radius, x, y + radius),
      appendBezierCurve(x - pull, y + radius, x - radius, y + pull, x - radius, y),
      appendBezierCurve(x - radius, y - pull, x - pull, y - radius, x, y - radius),
      appendBezierCurve(x + pull, y - radius, x + radius, y - pull, x + radius, y),
      fill(),
      popGraphicsState(),
    );
  }

  /** Parallel lines over an area, cut off at its edge. `angleRad` is their direction, `spacingPt` their distance. */
  hatch(ring: readonly Point[], angleRad: number, spacingPt: number, weight: LineWeight): void {
    const across = { x: -Math.sin(angleRad), y: Math.cos(angleRad) };
    const along = { x: Math.cos(angleRad), y: Math.sin(angleRad) };
    const offsets = ring.map(({ x, y }) => x * across.x + y * across.y);
    const reaches = ring.map(({ x, y }) => x * along.x + y * along.y);
    const spacing = this.units(spacingPt);
    const [from, to] = [Math.min(...reaches), Math.max(...reaches)];
    const last = Math.max(...offsets);
    this.operators.push(pushGraphicsState());
    this.#path(ring, true);
    this.operators.push(clip(), endPath());
    this.#weigh(weight);
    for (let offset = Math.ceil(Math.min(...offsets) / spacing) * spacing; offset < last; offset += spacing)
      this.operators.push(
        moveTo(across.x * offset + along.x * from, across.y * offset + along.y * from),
        lineTo(across.x * offset + along.x * to, across.y * offset + along.y * to),
        stroke(),
      );
    this.operators.push(popGraphicsState());
  }

  /** How long a text comes out, in user-space units. */
  textLength(text: string, heightPt: number): number {
    // The font has no thin space; an ordinary one stands for it.
    return this.#font.widthOfTextAtSize(text.replaceAll(DIGIT_SPACE, NO_BREAK_SPACE), this.units(heightPt));
  }

  /** Letters around `at`, with a white ground so that they can be read over the plan. */
  letter({ text: wanted, at, angleRad, heightPt, colour }: Lettering): void {
    const text = wanted.replaceAll(DIGIT_SPACE, NO_BREAK_SPACE);
    const size = this.units(heightPt);
    const half = this.textLength(text, heightPt) / 2;
    const cos = Math.cos(angleRad);
    const sin = Math.sin(angleRad);
    const place = (along: number, up: number): Point => ({
      x: at.x + along * cos - up * sin,
      y: at.y + along * sin + up * cos,
    });
    const pad = size * 0.18;
    // Capitals of the lettering stand about 0.72 of its size high.
    const cap = size * 0.72;
    this.area(
      [
        place(-half - pad, -cap / 2 - pad),
        place(half + pad, -cap / 2 - pad),
        place(half + pad, cap / 2 + pad),
        place(-half - pad, cap / 2 + pad),
      ],
      [1, 1, 1],
    );
    const start = place(-half, -cap / 2);
    this.operators.push(
      pushGraphicsState(),
      setFillingRgbColor(...colour),
      beginText(),
      setFontAndSize(this.#fontKey, size),
      setTextMatrix(cos, sin, -sin, cos, start.x, start.y),
      showText(this.#font.encodeText(text)),
      endText(),
      popGraphicsState(),
    );
  }
}
