import type { Point } from '../../geometry/point.ts';
import { spreadLabels } from '../drawing/spreadLabels.ts';
import type { FloorStraight } from '../settingOut/floorPlan.ts';
import { type Band, placeOff } from '../settingOut/placeBands.ts';
import { uprightAngle } from '../settingOut/ringLettering.ts';
import type { DxfEntity } from './dxfDrawing.ts';
import { layerNames } from './dxfLayers.ts';

/** Height of dimension figures, mm of the room: 2.5 mm at 1:20, 1 mm at 1:50. */
export const figureHeightMm = 50;
/** Width of a figure over its height in the usual sans serif, rounded up. */
export const figureShare = 0.85;

/** Off the near edge of a band, as shares of a line's height: the chain, the running figures, the total. */
const chainAt = 1.6;
const runningAt = 5.2;
const totalAt = 11.4;
/** How deep a band is. */
export const bandDepthMm = 13.5 * figureHeightMm;

const widthOf = (text: string): number => text.length * figureShare * figureHeightMm;

/** A length without grouping, to a tenth where it is not whole: what a CAD user types. */
export const plainLength = (lengthMm: number): string => String(Math.round(lengthMm * 10) / 10);

const degrees = (angleRad: number): number => (angleRad * 180) / Math.PI;

interface Figure {
  readonly fromMm: number;
  readonly toMm: number;
  readonly text: string;
}

/** Aligned dimensions along a straight on one line; figures too wide for their length stand aside of the line on a leader. */
const chain = (
  straight: FloorStraight,
  figures: readonly Figure[],
  lineOffMm: number,
  outwards: 1 | -1,
): readonly DxfEntity[] => {
  const layer = layerNames.dimensions;
  const angleDeg = degrees(uprightAngle(Math.atan2(straight.along.y, straight.along.x)));
  const at = (alongMm: number, offMm: number): Point => placeOff(straight, alongMm, offMm);
  const isNarrow = (figure: Figure) => widthOf(figure.text) > figure.toMm - figure.fromMm;
  const narrow = figures.filter(isNarrow);
  const centres = spreadLabels(
    narrow.map(({ fromMm, toMm, text }) => ({
      centre: (fromMm + toMm) / 2,
      width: widthOf(text),
      rank: toMm - fromMm,
    })),
    { gap: figureHeightMm * 0.6, mostShift: 8 * figureHeightMm },
  );
  return figures.map((figure): DxfEntity => {
    const { fromMm, toMm, text } = figure;
    const middle = (fromMm + toMm) / 2;
    const shifted = isNarrow(figure) ? (centres[narrow.indexOf(figure)] ?? middle) : middle;
    const textOff = lineOffMm + (isNarrow(figure) ? outwards : -outwards) * figureHeightMm * 0.95;
    const textAt = at(shifted, textOff);
    const tick = figureHeightMm * 0.35;
    const line = (from: Point, to: Point): DxfEntity => ({ type: 'line', layer, from, to });
    return {
      type: 'dimension',
      layer,
      from: at(fromMm, 0),
      to: at(toMm, 0),
      lineAt: at(toMm, lineOffMm),
      textAt,
      text,
      picture: [
        line(at(fromMm, lineOffMm), at(toMm, lineOffMm)),
        ...[fromMm, toMm].flatMap((stop) => [
          line(
            at(stop, outwards * figureHeightMm * 0.5),
            at(stop, lineOffMm + outwards * figureHeightMm * 0.5),
          ),
          line(at(stop - tick, lineOffMm - tick), at(stop + tick, lineOffMm + tick)),
        ]),
        ...(isNarrow(figure)
          ? [line(at(middle, lineOffMm), at(shifted, textOff - outwards * figureHeightMm * 0.6))]
          : []),
        { type: 'text', layer, at: textAt, align: 'middle', heightMm: figureHeightMm, angleDeg, text },
      ],
    };
  });
};

/** Running dimensions: how far each joint is from the datum, written across the line. */
const running = (
  straight: FloorStraight,
  stops: readonly number[],
  lineOffMm: number,
  outwards: 1 | -1,
): readonly DxfEntity[] => {
  const layer = layerNames.running;
  const at = (alongMm: number, offMm: number): Point => placeOff(straight, alongMm, offMm);
  const outRad = Math.atan2(straight.towardsBack.y * outwards, straight.towardsBack.x * outwards);
  const angleRad = uprightAngle(outRad);
  const isFlipped = Math.abs(Math.cos(angleRad - outRad) - 1) > 1e-6;
  const centres = spreadLabels(
    stops.map((stop) => ({ centre: stop, width: figureHeightMm, rank: 1 })),
    { gap: figureHeightMm * 0.5, mostShift: 1e9 },
  );
  const foot = lineOffMm + outwards * figureHeightMm;
  return [
    {
      type: 'line',
      layer,
      from: at(Math.min(0, ...stops), lineOffMm),
      to: at(Math.max(...stops), lineOffMm),
    },
    { type: 'circle', layer, centre: at(0, lineOffMm), radiusMm: figureHeightMm * 0.3 },
    ...stops.flatMap((stop, index): readonly DxfEntity[] => {
      const along = centres[index] ?? stop;
      return [
        { type: 'line', layer, from: at(stop, lineOffMm), to: at(along, foot) },
        {
          type: 'text',
          layer,
          at: at(along, foot + outwards * figureHeightMm * 0.4),
          align: isFlipped ? 'end' : 'start',
          heightMm: figureHeightMm,
          angleDeg: degrees(angleRad),
          text: plainLength(stop),
        },
      ];
    }),
  ];
};

/** Rounded up to a tenth: a +/- never gets smaller by being written. */
const tenths = (mm: number): number => Math.ceil(mm * 10 - 1e-6) / 10;

/** All that sets a straight out from its datum: a chain of what takes its length, running figures, its total. */
export const straightDimensions = (straight: FloorStraight, band: Band): readonly DxfEntity[] => {
  const outwards = band.side === 'front' ? -1 : 1;
  const off = (lines: number): number => band.nearMm + outwards * lines * figureHeightMm;
  const lengths = straight.spans.map(
    ({ fromMm, toMm }): Figure => ({ fromMm, toMm, text: plainLength(toMm - fromMm) }),
  );
  const stops = [
    ...new Set(
      [0, ...straight.spans.flatMap(({ fromMm, toMm }) => [fromMm, toMm]), straight.lengthMm].map(
        (stop) => Math.round(stop * 1000) / 1000,
      ),
    ),
  ];
  const total = {
    fromMm: 0,
    toMm: straight.lengthMm,
    text: straight.bend
      ? `${plainLength(straight.lengthMm)} chord of an arc of ${plainLength(straight.bend.arcMm)} ±${tenths(straight.plusMinusMm)}`
      : `${plainLength(straight.lengthMm)} ±${tenths(straight.plusMinusMm)}`,
  };
  return [
    ...chain(straight, lengths, off(chainAt), outwards),
    ...running(
      straight,
      stops.sort((one, other) => one - other),
      off(runningAt),
      outwards,
    ),
    ...chain(straight, [total], off(totalAt), outwards),
  ];
};
