import type { Point } from '../../geometry/point.ts';
import { NO_BREAK_SPACE } from '../../units/digitGroups.ts';
import { type DrawnPath, pointsOfPath } from './drawnPath.ts';
import type { HatchTile } from './hatchTiles.ts';

/** A colour as PDF has it: red, green, blue from 0 to 1. */
export type Rgb = readonly [red: number, green: number, blue: number];

export interface PenLine {
  readonly widthMm: number;
  readonly colour: Rgb;
  readonly dashMm?: readonly number[];
}

/** What a pen needs of a font that the document embeds. */
export interface PenFont {
  /** The name by which the page's resources know it. */
  readonly resource: string;
  /** Width of a text at type size 1. */
  readonly widthOf: (text: string) => number;
  /** The text as a PDF string operand. */
  readonly encode: (text: string) => string;
  /** Whether the font has a glyph for a character. */
  readonly has: (character: string) => boolean;
}

/** A text as it stands on the paper: for whoever checks that none lies over another. */
export interface LetterBox {
  readonly text: string;
  readonly ring: readonly Point[];
}

/** A finished piece of paper: PDF operators whose unit is the millimetre, and what they letter. */
export interface PaperPicture {
  readonly content: string;
  readonly letters: readonly LetterBox[];
}

export interface PenText {
  readonly text: string;
  readonly at: Point;
  readonly align?: 'start' | 'middle' | 'end';
  /** Which height of the lettering stands on the point. Default: the baseline. */
  readonly vertical?: 'baseline' | 'middle';
  readonly angleRad?: number;
  readonly capitalMm: number;
  readonly colour: Rgb;
  /** Squeezed to this width where the font runs wider. */
  readonly mostMm?: number;
  /** A white ground, so that it reads over a plan. */
  readonly hasGround?: boolean;
}

/** Height of a capital over the type size: 1409/2048 of Liberation Sans (its OS/2 table's sCapHeight). */
export const penCapitalShare = 1409 / 2048;
/** What hangs below the baseline, over the capitals' height. */
const tailShare = 0.3;

const number = (value: number): string => {
  if (!Number.isFinite(value)) throw new RangeError(`A place on the paper must be finite, found ${value}`);
  const text = value.toFixed(5).replace(/\.?0+$/, '');
  return text === '-0' || text === '' ? '0' : text;
};

/** Characters that a font may lack and what stands for them; anything else it lacks becomes a question mark. */
const stand = (text: string, font: PenFont): string => {
  let written = '';
  for (const character of text)
    written += font.has(character)
      ? character
      : /\s/.test(character)
        ? NO_BREAK_SPACE
        : character === '−'
          ? '-'
          : '?';
  return written;
};

/** Draws on paper in millimetres, x to the right, y up. `picture` ends it. */
export class PaperPen {
  readonly #out: string[] = [];
  readonly #letters: LetterBox[] = [];
  readonly font: PenFont;

  constructor(font: PenFont) {
    this.font = font;
  }

  picture(): PaperPicture {
    return { content: this.#out.join(''), letters: this.#letters };
  }

  #path(path: DrawnPath): string {
    const at = ({ x, y }: Point) => `${number(x)} ${number(y)}`;
    let text = `${at(path.start)} m\n`;
    for (const step of path.steps)
      text +=
        step.kind === 'line' ? `${at(step.to)} l\n` : `${at(step.c1)} ${at(step.c2)} ${at(step.to)} c\n`;
    return path.isClosed ? `${text}h\n` : text;
  }

  #setLine({ widthMm, colour, dashMm = [] }: PenLine): void {
    this.#out.push(
      `${number(widthMm)} w [${dashMm.map(number).join(' ')}] 0 d ${colour.map(number).join(' ')} RG\n`,
    );
  }

  /** Draws a path: its fill, then its line. `alpha` names a graphics state of the page that thins the fill. */
  path(
    path: DrawnPath,
    style: { readonly line?: PenLine; readonly fill?: Rgb; readonly alpha?: string },
  ): void {
    if (style.fill) {
      const state = style.alpha ? `q /${style.alpha} gs ` : 'q ';
      this.#out.push(`${state}${style.fill.map(number).join(' ')} rg\n`, this.#path(path), 'f Q\n');
    }
    if (style.line) {
      this.#setLine(style.line);
      this.#out.push(this.#path(path), 'S\n');
    }
  }

  line(points: readonly Point[], line: PenLine): void {
    const [start, ...others] = points;
    if (start)
      this.path({ start, steps: others.map((to) => ({ kind: 'line', to })), isClosed: false }, { line });
  }

  ring(
    points: readonly Point[],
    style: { readonly line?: PenLine; readonly fill?: Rgb; readonly alpha?: string },
  ): void {
    const [start, ...others] = points;
    if (start) this.path({ start, steps: others.map((to) => ({ kind: 'line', to })), isClosed: true }, style);
  }

  /** Fills a path with the tiles of a hatch, which lie on one grid over the whole paper. */
  hatch(path: DrawnPath, tile: HatchTile, colour: Rgb): void {
    const turn = (tile.turnDeg * Math.PI) / 180;
    const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
    const inTile = pointsOfPath(path).map(({ x, y }) => ({
      x: x * cosine + y * sine,
      y: y * cosine - x * sine,
    }));
    const onPaper = (x: number, y: number) =>
      `${number(x * cosine - y * sine)} ${number(x * sine + y * cosine)}`;
    const cells = (values: readonly number[]) => [
      Math.floor(Math.min(...values) / tile.sizeMm),
      Math.ceil(Math.max(...values) / tile.sizeMm),
    ];
    const [left = 0, right = 0] = cells(inTile.map(({ x }) => x));
    const [bottom = 0, top = 0] = cells(inTile.map(({ y }) => y));
    this.#out.push('q\n', this.#path(path), 'W n\n');
    if (tile.strokeMm > 0) this.#setLine({ widthMm: tile.strokeMm, colour });
    this.#out.push(`1 J ${colour.map(number).join(' ')} RG\n`);
    for (let column = left; column < right; column += 1)
      for (let row = bottom; row < top; row += 1) {
        const [ox, oy] = [column * tile.sizeMm, row * tile.sizeMm];
        for (const stroke of tile.strokes)
          this.#out.push(
            `${stroke.map(([x, y], index) => `${onPaper(ox + x, oy + y)} ${index === 0 ? 'm' : 'l'}`).join(' ')} S\n`,
          );
        for (const { at, radiusMm } of tile.dots) {
          // A round-ended line of no length is a dot (ISO 32000-1, 8.4.3.3; clause from memory).
          const place = onPaper(ox + at[0], oy + at[1]);
          this.#out.push(`${number(radiusMm * 2)} w ${place} m ${place} l S\n`);
        }
      }
    this.#out.push('Q\n');
  }

  /** How wide a text comes out, mm. */
  textWidth(text: string, capitalMm: number): number {
    return (this.font.widthOf(stand(text, this.font)) * capitalMm) / penCapitalShare;
  }

  text(lettering: PenText): void {
    const text = stand(lettering.text, this.font);
    if (text.trim() === '') return;
    const { at, align = 'start', vertical = 'baseline', angleRad = 0, capitalMm, colour } = lettering;
    const natural = this.textWidth(text, capitalMm);
    const width = Math.min(natural, lettering.mostMm ?? natural);
    const [cosine, sine] = [Math.cos(angleRad), Math.sin(angleRad)];
    const back = { start: 0, middle: width / 2, end: width }[align];
    const down = vertical === 'middle' ? capitalMm / 2 : 0;
    const place = (along: number, up: number): Point => ({
      x: at.x + (along - back) * cosine - (up - down) * sine,
      y: at.y + (along - back) * sine + (up - down) * cosine,
    });
    const ringOf = (pad: number, low: number): readonly Point[] => [
      place(-pad, low),
      place(width + pad, low),
      place(width + pad, capitalMm + pad),
      place(-pad, capitalMm + pad),
    ];
    if (lettering.hasGround) this.ring(ringOf(capitalMm * 0.25, -capitalMm * 0.3), { fill: [1, 1, 1] });
    this.#letters.push({
      text,
      ring: ringOf(0, -capitalMm * tailShare * (/[gjpqyQ,;()/]/.test(text) ? 1 : 0)),
    });
    const start = place(0, 0);
    const squeeze = natural > width ? `${number((width / natural) * 100)} Tz ` : '';
    const size = number(capitalMm / penCapitalShare);
    this.#out.push(
      `q ${colour.map(number).join(' ')} rg BT /${this.font.resource} ${size} Tf ${squeeze}`,
      `${number(cosine)} ${number(sine)} ${number(-sine)} ${number(cosine)} ${number(start.x)} ${number(start.y)} Tm `,
      `${this.font.encode(text)} Tj ET Q\n`,
    );
  }

  /** Puts a picture down with its origin at a place, turned about it. */
  put({ content, letters }: PaperPicture, at: Point, angleRad = 0): void {
    const [cosine, sine] = [Math.cos(angleRad), Math.sin(angleRad)];
    const matrix = [cosine, sine, -sine, cosine, at.x, at.y].map(number).join(' ');
    this.#out.push(`q ${matrix} cm\n`, content, 'Q\n');
    for (const { text, ring } of letters)
      this.#letters.push({
        text,
        ring: ring.map(({ x, y }) => ({ x: at.x + x * cosine - y * sine, y: at.y + x * sine + y * cosine })),
      });
  }

  /** What `draw` draws, cut off outside a box. Its letters are not. */
  within(
    {
      minX,
      minY,
      maxX,
      maxY,
    }: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number },
    draw: () => void,
  ): void {
    this.#out.push(`q ${[minX, minY, maxX - minX, maxY - minY].map(number).join(' ')} re W n\n`);
    draw();
    this.#out.push('Q\n');
  }

  get letters(): readonly LetterBox[] {
    return this.#letters;
  }

  /** Operators as they are, between a saved and restored graphics state. */
  operators(operators: string): void {
    this.#out.push('q\n', operators, '\nQ\n');
  }
}
