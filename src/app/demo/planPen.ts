/**
 * A pen that writes a PDF content stream for a plan: lines, arcs and lettering with widths in millimetres of paper.
 *
 * Coordinates are millimetres: of paper on the sheet itself, of the room in a view (see `inView`). Line widths, dash
 * lengths and letter heights are always millimetres of paper, as on a drawing board. Everything drawn stands on a
 * layer, which becomes an optional content group.
 */

export type XY = readonly [x: number, y: number];

export interface LineStyle {
  /** Line width in millimetres of paper. */
  readonly pen: number;
  /** Dash pattern in millimetres of paper; none is a solid line. */
  readonly dash?: readonly number[];
  /** 0 black to 1 white. */
  readonly grey?: number;
}

export interface AreaStyle {
  readonly grey: number;
}

export interface LetterStyle {
  /** Height of a capital in millimetres of paper. */
  readonly cap: number;
  readonly align?: 'left' | 'centre' | 'right';
  /** Which height of the lettering stands on the point: baseline, or half the capital height. */
  readonly vertical?: 'baseline' | 'middle';
  readonly angleDeg?: number;
  readonly bold?: boolean;
  readonly grey?: number;
}

/** A letter face as the pen needs it: widths in thousandths are the font's business. */
export interface PenFont {
  readonly resource: string;
  readonly width: (text: string, size: number) => number;
  /** The text as a PDF string operand. */
  readonly encode: (text: string) => string;
}

export interface PlanPen {
  readonly layer: (name: string, draw: () => void) => void;
  readonly line: (from: XY, to: XY, style: LineStyle) => void;
  readonly polyline: (points: readonly XY[], style: LineStyle, closed?: boolean) => void;
  readonly area: (points: readonly XY[], fill: AreaStyle, outline?: LineStyle) => void;
  readonly rectangle: (
    x: number,
    y: number,
    width: number,
    height: number,
    style: LineStyle,
    fill?: AreaStyle,
  ) => void;
  readonly circle: (centre: XY, radius: number, style: LineStyle, fill?: AreaStyle) => void;
  /** Counter-clockwise from `fromDeg` to `toDeg`. */
  readonly arc: (centre: XY, radius: number, fromDeg: number, toDeg: number, style: LineStyle) => void;
  /** A filled disc with no outline, such as a dot at a leader's end. */
  readonly dot: (centre: XY, radius: number, grey?: number) => void;
  readonly letter: (text: string, at: XY, style: LetterStyle) => void;
  /** Width of lettering in this pen's own millimetres. */
  readonly letterWidth: (text: string, style: Pick<LetterStyle, 'cap' | 'bold'>) => number;
  /** This pen's millimetres in one millimetre of paper: 1 on the sheet, 50 in a view at 1:50. */
  readonly ratio: number;
  /** A pen over the same stream whose coordinates are room millimetres from `origin` on paper. */
  readonly inView: (origin: XY, ratio: number) => PlanPen;
}

/** Helvetica's capital height over its size (Adobe font metrics, CapHeight 718). */
export const capHeightRatio = 0.718;
/** How far a quarter circle's control points lie along its tangents, as a part of the radius. */
const quarterArcHandle = (angleRad: number): number => (4 / 3) * Math.tan(angleRad / 4);

export const number = (value: number): string => {
  const text = value.toFixed(4).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
};

export interface PenSheet {
  readonly pen: PlanPen;
  readonly layers: () => readonly string[];
  /** The finished content stream. */
  readonly content: () => string;
}

/**
 * Starts an empty sheet.
 *
 * @param unitsPerMm user-space units in a millimetre of paper (72/25.4 where UserUnit is 1)
 * @param offset where the sheet's lower left corner lies in user space, in units
 */
export const startSheet = (options: {
  readonly fonts: { readonly regular: PenFont; readonly bold: PenFont };
  readonly unitsPerMm: number;
  readonly offset?: XY;
}): PenSheet => {
  const out: string[] = [];
  const layerNames: string[] = [];
  const [offsetX, offsetY] = options.offset ?? [0, 0];
  let current = '';
  let state = '';

  const unit = options.unitsPerMm;
  const letterSize = (cap: number): number => cap / capHeightRatio;
  const face = (bold: boolean | undefined): PenFont => (bold ? options.fonts.bold : options.fonts.regular);

  const setLine = (style: LineStyle): void => {
    const dash = (style.dash ?? []).map((length) => number(length * unit)).join(' ');
    const next = `${number(style.pen * unit)} w [${dash}] 0 d ${number(style.grey ?? 0)} G\n`;
    if (next !== state) out.push(next);
    state = next;
  };
  const setFill = (grey: number): void => {
    out.push(`${number(grey)} g\n`);
  };

  const penFor = (origin: XY, ratio: number): PlanPen => {
    const place = ([x, y]: XY): XY => [origin[0] + x / ratio, origin[1] + y / ratio];
    const point = (xy: XY): string => {
      const [x, y] = place(xy);
      return `${number(x * unit + offsetX)} ${number(y * unit + offsetY)}`;
    };
    const path = (points: readonly XY[], closed: boolean): string =>
      points.map((xy, index) => `${point(xy)} ${index === 0 ? 'm' : 'l'}\n`).join('') + (closed ? 'h\n' : '');
    const arcPath = (centre: XY, radius: number, fromDeg: number, toDeg: number): string => {
      const pieces = Math.max(1, Math.ceil((toDeg - fromDeg) / 90 - 1e-9));
      const step = ((toDeg - fromDeg) / pieces / 180) * Math.PI;
      const handle = quarterArcHandle(step) * radius;
      const at = (angle: number): XY => [
        centre[0] + radius * Math.cos(angle),
        centre[1] + radius * Math.sin(angle),
      ];
      const start = (fromDeg / 180) * Math.PI;
      let text = `${point(at(start))} m\n`;
      for (let piece = 0; piece < pieces; piece += 1) {
        const a = start + piece * step;
        const b = a + step;
        const [ax, ay] = at(a);
        const [bx, by] = at(b);
        text += `${point([ax - handle * Math.sin(a), ay + handle * Math.cos(a)])} `;
        text += `${point([bx + handle * Math.sin(b), by - handle * Math.cos(b)])} ${point([bx, by])} c\n`;
      }
      return text;
    };
    const paint = (shape: string, style: LineStyle | undefined, fill: AreaStyle | undefined): void => {
      if (style !== undefined) setLine(style);
      if (fill !== undefined) setFill(fill.grey);
      out.push(shape, fill === undefined ? 'S\n' : style === undefined ? 'f\n' : 'B\n');
    };
    const corners = (x: number, y: number, width: number, height: number): readonly XY[] => [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ];

    return {
      ratio,
      layer: (name, draw) => {
        if (current !== '') throw new Error(`layer "${name}" opened inside layer "${current}"`);
        if (!layerNames.includes(name)) layerNames.push(name);
        current = name;
        state = '';
        out.push(`/OC /Layer${layerNames.indexOf(name)} BDC\nq 1 J 1 j\n`);
        draw();
        out.push('Q\nEMC\n');
        current = '';
      },
      line: (from, to, style) => paint(path([from, to], false), style, undefined),
      polyline: (points, style, closed = false) => paint(path(points, closed), style, undefined),
      area: (points, fill, outline) => paint(path(points, true), outline, fill),
      rectangle: (x, y, width, height, style, fill) =>
        paint(path(corners(x, y, width, height), true), style, fill),
      circle: (centre, radius, style, fill) => paint(`${arcPath(centre, radius, 0, 360)}h\n`, style, fill),
      arc: (centre, radius, fromDeg, toDeg, style) =>
        paint(arcPath(centre, radius, fromDeg, toDeg), style, undefined),
      dot: (centre, radius, grey = 0) => paint(`${arcPath(centre, radius, 0, 360)}h\n`, undefined, { grey }),
      letterWidth: (text, style) => face(style.bold).width(text, letterSize(style.cap)) * ratio,
      letter: (text, at, style) => {
        const font = face(style.bold);
        const size = letterSize(style.cap);
        const width = font.width(text, size);
        const angleDeg = style.angleDeg ?? 0;
        const angle = (angleDeg / 180) * Math.PI;
        const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
        const back = style.align === 'centre' ? width / 2 : style.align === 'right' ? width : 0;
        const down = style.vertical === 'middle' ? style.cap / 2 : 0;
        const [px, py] = place(at);
        const x = px - back * cos + down * sin;
        const y = py - back * sin - down * cos;
        setFill(style.grey ?? 0);
        out.push(
          `BT /${font.resource} ${number(size * unit)} Tf ${number(cos)} ${number(sin)} ${number(-sin)} ${number(cos)} `,
          `${number(x * unit + offsetX)} ${number(y * unit + offsetY)} Tm ${font.encode(text)} Tj ET\n`,
        );
      },
      inView: penFor,
    };
  };

  return {
    pen: penFor([0, 0], 1),
    layers: () => layerNames,
    content: () => out.join(''),
  };
};
