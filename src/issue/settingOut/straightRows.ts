import { type DisplayUnit, formatPlusMinus } from '../../units/formatLength.ts';
import type { ChainLink } from '../drawing/drawing.ts';
import { drawShapes, drawTexts } from '../drawing/drawingToPdf.ts';
import { PaperPen, type PaperPicture, type PenFont } from '../drawing/paperPen.ts';
import { settleChains } from '../drawing/settleChains.ts';
import { spreadLabels } from '../drawing/spreadLabels.ts';
import { drawnLength } from '../elevation/elevationChains.ts';
import type { FloorStraight } from './floorPlan.ts';
import { capital, ink, lines } from './planInk.ts';
import { uprightAngle } from './ringLettering.ts';

/** The dimensions of one straight as rows, for either side: origin at its datum, x along the line in which text reads. */
export interface StraightRows {
  readonly depthMm: number;
  /**
   * The picture for a band whose near edge is `nearMm` of paper off the front line; `isUp`: it
   * lies above the line, and the run's own edge on that side is `edgeMm` off the front line.
   */
  readonly draw: (nearMm: number, isUp: boolean, edgeMm: number) => PaperPicture;
  readonly angleRad: number;
  /** From where to where along the front its lines and letters reach, mm of paper from the datum. */
  readonly reachMm: readonly [low: number, high: number];
}

const betweenMm = 0.8;
const rulingColour = lines.dimension.colour;

const chainLinks = (straight: FloorStraight, unit: DisplayUnit): readonly ChainLink[] =>
  straight.spans.map(({ kind, fromMm, toMm }) => ({
    fromMm,
    toMm,
    text: kind === 'joint' || kind === 'wedge' ? '' : drawnLength(toMm - fromMm, unit),
    rank: kind === 'piece' ? 9 : kind === 'leftover' ? 8 : kind === 'joint' || kind === 'wedge' ? 1 : 5,
  }));

/** Stops nearer than this to one another are one: they could not be marked apart. */
const sameStopMm = 0.5;

const distinctStops = (stops: readonly number[]): readonly number[] => {
  const all = stops.toSorted((one, other) => one - other);
  return all.filter((stop, index) => index === 0 || stop - all[index - 1]! > sameStopMm);
};

const stopsOf = ({ lengthMm, spans }: FloorStraight): readonly number[] =>
  distinctStops([0, lengthMm, ...spans.flatMap(({ fromMm, toMm }) => [fromMm, toMm])]);

export interface RowsGiven {
  readonly unit: DisplayUnit;
  readonly font: PenFont;
  /** Given: these places are set out by running figures, and there is no chain. */
  readonly pointsMm?: readonly number[];
}

/**
 * Lays out the three rows of a straight at 1 : `ratio`: the chain of all that takes its length, the running dimensions
 * from its datum, and its traced length with the +/- (ISO 129-1: values above their lines, oblique ticks, running
 * dimensions from an origin circle; from memory).
 */
export const straightRows = (
  straight: FloorStraight,
  ratio: number,
  { unit, font, pointsMm }: RowsGiven,
): StraightRows => {
  const alongRad = Math.atan2(straight.along.y, straight.along.x);
  const angleRad = uprightAngle(alongRad);
  const sign = Math.cos(angleRad - alongRad) > 0 ? 1 : -1;
  // Figures across the line read from the foot or the right edge of the sheet too: a quarter turn either way.
  const acrossRad =
    Math.sin(uprightAngle(angleRad + Math.PI / 2) - angleRad) > 0 ? Math.PI / 2 : -Math.PI / 2;
  const turned = (links: readonly ChainLink[]): readonly ChainLink[] =>
    links
      .map((link) => (sign === 1 ? link : { ...link, fromMm: -link.toMm, toMm: -link.fromMm }))
      .sort((one, other) => one.fromMm - other.fromMm);
  const chain = pointsMm
    ? null
    : settleChains({ chains: [{ links: turned(chainLinks(straight, unit)) }] }, ratio);
  const plusMinus = formatPlusMinus(straight.plusMinusMm, { unit }).replace(/\s*mm$/, '');
  const { bend } = straight;
  // Along the chord of an arc; its own length and radius are told with it.
  const quietText = bend
    ? ` chord of an arc of ${drawnLength(bend.arcMm, unit)} ${plusMinus}, R ${drawnLength(bend.radiusMm, unit)}`
    : plusMinus;
  const total = settleChains(
    {
      chains: [
        {
          links: turned([
            {
              fromMm: 0,
              toMm: straight.lengthMm,
              text: drawnLength(straight.lengthMm, unit),
              quietText,
              rank: 9,
            },
          ]),
        },
      ],
    },
    ratio,
  );
  const stops = pointsMm ? distinctStops([0, straight.lengthMm, ...pointsMm]) : stopsOf(straight);
  const figures = stops.map((stop) => drawnLength(stop, unit));
  const measure = new PaperPen(font);
  const longest = Math.max(...figures.map((text) => measure.textWidth(text, capital.small)));
  const kneeMm = 2;
  const runningMm = 1 + kneeMm + longest + 0.5;
  const depths = [chain ? -chain.bottom : 0, runningMm, -total.bottom];
  const depthMm = depths.reduce((sum, depth) => sum + depth + betweenMm, 0);

  const drawRunning = (pen: PaperPen, lineY: number, out: 1 | -1): void => {
    const places = stops.map((stop) => (sign * stop) / ratio);
    const centres = spreadLabels(
      places.map((centre) => ({ centre, width: capital.small, rank: 1 })),
      { gap: 0.7, mostShift: 1e6 },
    );
    const ends = [Math.min(...places), Math.max(...places)] as const;
    pen.line(
      ends.map((x) => ({ x, y: lineY })),
      lines.dimension,
    );
    const zero = 0;
    const circle = Array.from({ length: 24 }, (_, step) => ({
      x: zero + 0.65 * Math.cos((step * Math.PI) / 12),
      y: lineY + 0.65 * Math.sin((step * Math.PI) / 12),
    }));
    for (const [index, x] of places.entries()) {
      const centre = centres[index] ?? x;
      pen.line(
        [
          { x, y: lineY - out * 0.7 },
          { x, y: lineY + out * 0.4 },
          { x: centre, y: lineY + out * kneeMm },
        ],
        lines.dimension,
      );
      pen.text({
        text: figures[index] ?? '',
        at: { x: centre, y: lineY + out * (kneeMm + 0.3) },
        align: (out === 1) === acrossRad > 0 ? 'start' : 'end',
        vertical: 'middle',
        angleRad: acrossRad,
        capitalMm: capital.small,
        colour: ink,
      });
    }
    pen.ring(circle, { fill: [1, 1, 1], line: { widthMm: 0.25, colour: ink } });
  };

  const draw: StraightRows['draw'] = (nearMm, isUp, edgeMm) => {
    const pen = new PaperPen(font);
    const out = isUp ? 1 : -1;
    let offMm = nearMm;
    const put = (row: typeof total, depth: number): void => {
      const picture = new PaperPen(font);
      drawShapes(picture, row.rulings, 1, rulingColour);
      drawTexts(picture, row.texts);
      pen.put(picture.picture(), { x: 0, y: isUp ? offMm + depth : -offMm });
    };
    // Extension lines from near the run to the nearest row.
    for (const stop of stops)
      pen.line(
        [
          { x: (sign * stop) / ratio, y: out * Math.min(nearMm, edgeMm + 1.2) },
          { x: (sign * stop) / ratio, y: out * (nearMm + (isUp ? 0.6 : 0.7)) },
        ],
        lines.dimension,
      );
    if (chain) put(chain, depths[0]!);
    offMm += depths[0]! + betweenMm;
    drawRunning(pen, out * (offMm + 0.9), out);
    offMm += depths[1]! + betweenMm;
    put(total, depths[2]!);
    return pen.picture();
  };
  const reached = [
    ...stops.map((stop) => stop / ratio),
    ...draw(0, false, 0).letters.flatMap(({ ring }) => ring.map(({ x }) => sign * x)),
  ];
  return { depthMm, angleRad, draw, reachMm: [Math.min(...reached) - 0.6, Math.max(...reached) + 0.6] };
};
