import type { ProjectDocument, Run } from '../../document/projectDocument.ts';
import { runNumberOf } from '../../document/runsInForce.ts';
import type { FitAlternative } from '../../fitting/fitAnswer.ts';
import type { Point } from '../../geometry/point.ts';
import { backLineOf } from '../../measure/backLine.ts';
import { runAsTraced } from '../../measure/runAsTraced.ts';
import { flattenedPath } from '../../measure/runPath.ts';
import { paperPointAt } from '../../measure/runPosition.ts';
import { straightsOf } from '../../measure/straights.ts';
import { frontMiddleOf, frontPlaceAt, mmPerUserUnit, type SheetScale } from '../../measure/tracedRun.ts';
import { zonesOfRun } from '../../measure/zonesOfRun.ts';
import { isColumnPassed } from '../../quote/isColumnPassed.ts';
import { pieceMarks } from '../../quote/pieceMarks.ts';
import { verdictWord } from '../../quote/schedule.ts';
import type { StockRange } from '../../stock/stockSchema.ts';
import { formatLength, formatPlusMinus } from '../../units/formatLength.ts';
import { type FitOnPlan, fitOnPlan } from '../fitOnPlan.ts';
import { zoneOnPlan } from '../zoneOnPlan.ts';
import { zoneTitle } from '../zoneTitle.ts';
import type { OverlayPen, Rgb } from './overlayPen.ts';

/** Marks of the drawing from the Okabe-Ito set (2002, from memory), each with its own line, hatch or letter. */
const ink: Rgb = [0.11, 0.12, 0.13];
const front: Rgb = [0, 0.447, 0.698];
const station: Rgb = [0, 0.48, 0.35];
const filler: Rgb = [0.62, 0.4, 0];
const madeToMeasure: Rgb = [0.76, 0.3, 0];

const millimetres = { unit: 'mm' } as const;

/** Text height for marks and lengths, and the least that can still be read, in points (2.5 mm and 1.4 mm). */
const usualHeightPt = 7.1;
const leastHeightPt = 4;
const lineSpacing = 1.35;
/** From a ring to its letters outside: beyond the lettering of the straight's length. */
const leaderPt = 17;

const middleOf = (ring: readonly Point[]): Point => ({
  x: ring.reduce((sum, { x }) => sum + x, 0) / ring.length,
  y: ring.reduce((sum, { y }) => sum + y, 0) / ring.length,
});

/** The direction, or the opposite one, in which text reads upright on a page turned clockwise by `rotationDeg`. */
export const readableAngle = (angleRad: number, rotationDeg: number): number => {
  const shown = angleRad - (rotationDeg * Math.PI) / 180;
  const turn = ((shown % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  const isUpsideDown = turn > Math.PI / 2 + 1e-6 && turn <= (3 * Math.PI) / 2 + 1e-6;
  return isUpsideDown ? angleRad + Math.PI : angleRad;
};

/** Letters in lines one below the other around a place. */
const letterLines = (
  pen: OverlayPen,
  lines: readonly string[],
  at: Point,
  angleRad: number,
  heightPt: number,
  colour: Rgb,
): void => {
  for (const [index, text] of lines.entries()) {
    const up = ((lines.length - 1) / 2 - index) * pen.units(heightPt * lineSpacing);
    pen.letter({
      text,
      at: { x: at.x - Math.sin(angleRad) * up, y: at.y + Math.cos(angleRad) * up },
      angleRad,
      heightPt,
      colour,
    });
  }
};

/**
 * Letters in a ring as large as they fit: along its front edge, else turned towards its back, else its first line
 * alone; not at all where even that could not be read. Answers whether every line found room.
 */
const letterIn = (
  pen: OverlayPen,
  ring: readonly Point[],
  lines: readonly string[],
  colour: Rgb,
  rotationDeg: number,
): boolean => {
  const [start, end, , back] = ring;
  if (!start || !end || !back) return false;
  const alongRad = Math.atan2(end.y - start.y, end.x - start.x);
  const width = Math.hypot(end.x - start.x, end.y - start.y);
  const depth = Math.hypot(back.x - start.x, back.y - start.y);
  const roomFor = (some: readonly string[], length: number, across: number): number =>
    Math.min(
      usualHeightPt,
      (length * 0.9) / Math.max(...some.map((text) => pen.textLength(text, 1))),
      (across * 0.9) / (pen.units(lineSpacing) * some.length),
    );
  const alongFront = readableAngle(alongRad, rotationDeg);
  const towardsBack = readableAngle(alongRad + Math.PI / 2, rotationDeg);
  const first = lines.slice(0, 1);
  const ways = [
    { some: lines, angleRad: alongFront, heightPt: roomFor(lines, width, depth) },
    { some: lines, angleRad: towardsBack, heightPt: roomFor(lines, depth, width) },
    { some: first, angleRad: alongFront, heightPt: roomFor(first, width, depth) },
    { some: first, angleRad: towardsBack, heightPt: roomFor(first, depth, width) },
  ];
  const way = ways.find(({ heightPt }) => heightPt >= leastHeightPt);
  if (way) letterLines(pen, way.some, middleOf(ring), way.angleRad, way.heightPt, colour);
  return way !== undefined && way.some.length === lines.length;
};

/** Letters for a ring that is too small for them: outside, in front of it, away from the bar, on a leader. */
const letterInFront = (
  pen: OverlayPen,
  ring: readonly Point[],
  text: string,
  colour: Rgb,
  rotationDeg: number,
): void => {
  const [start, end, , back] = ring;
  if (!start || !end || !back) return;
  const depth = Math.hypot(back.x - start.x, back.y - start.y);
  const away = { x: (start.x - back.x) / depth, y: (start.y - back.y) / depth };
  const foot = { x: (start.x + end.x) / 2, y: (start.y + end.y) / 2 };
  const at = (distance: number): Point => ({ x: foot.x + away.x * distance, y: foot.y + away.y * distance });
  const clear = pen.units(leaderPt);
  const heightPt = usualHeightPt * 0.85;
  pen.line([at(0), at(clear)], { widthPt: 0.5, colour });
  pen.letter({
    text,
    at: at(clear + pen.units(2) + pen.textLength(text, heightPt) / 2),
    angleRad: readableAngle(Math.atan2(away.y, away.x), rotationDeg),
    heightPt,
    colour,
  });
};

const drawPart = (pen: OverlayPen, part: FitOnPlan, rotationDeg: number): void => {
  const [start, end] = part.ring;
  const along = start && end ? Math.atan2(end.y - start.y, end.x - start.x) : 0;
  if (part.kind === 'leftover') {
    const colour = part.verdict === 'made-to-measure' ? madeToMeasure : filler;
    const weight = { widthPt: 0.4, colour };
    pen.hatch(part.ring, along + Math.PI / 4, part.verdict === 'closes' ? 4.5 : 2.6, weight);
    if (part.verdict === 'made-to-measure') pen.hatch(part.ring, along - Math.PI / 4, 2.6, weight);
    pen.outline(part.outline ?? part.ring, { widthPt: 1.1, colour });
    const sure = part.confirmed ? '' : ', measure on site';
    const width = formatLength(part.widthMm, millimetres);
    const verdict = `${verdictWord(part.verdict)}${sure}`;
    if (!letterIn(pen, part.letterRing, [part.mark, width, verdict], colour, rotationDeg))
      letterInFront(pen, part.ring, `${part.mark}  ${width}  ${verdict}`, colour, rotationDeg);
    return;
  }
  if (part.kind === 'wedge') {
    const weight = { widthPt: 0.4, colour: madeToMeasure };
    for (const slant of [Math.PI / 4, -Math.PI / 4]) pen.hatch(part.ring, along + slant, 2, weight);
    pen.outline(part.ring, { widthPt: 0.7, colour: madeToMeasure });
    return;
  }
  const colour = part.kind === 'piece' && part.isStation ? station : ink;
  pen.outline(part.ring, { widthPt: 0.9, colour });
  if (part.kind === 'corner') letterIn(pen, part.letterRing, [part.mark], ink, rotationDeg);
  else
    letterIn(pen, part.letterRing, [part.mark, formatLength(part.widthMm, millimetres)], colour, rotationDeg);
};

const drawZones = (
  pen: OverlayPen,
  drawn: {
    readonly document: ProjectDocument;
    readonly run: Run;
    readonly alternative: FitAlternative | null;
    readonly scale: SheetScale;
    readonly rotationDeg: number;
  },
): void => {
  const { document, run, alternative, scale, rotationDeg } = drawn;
  const traced = runAsTraced(run);
  for (const zone of zonesOfRun(document, run.id, scale)) {
    const { ring, columnRing, equipment, door } = zoneOnPlan(
      zone,
      run.depthMm,
      isColumnPassed(zone, alternative),
      (along, offset) => paperPointAt(traced, zone.straight, along, offset, scale),
    );
    const [start, end] = ring;
    const angle = start && end ? Math.atan2(end.y - start.y, end.x - start.x) : 0;
    const fine = { widthPt: 0.5, colour: ink };
    if (zone.kind === 'blocked') {
      pen.hatch(ring, angle + Math.PI / 3, 2, fine);
      pen.hatch(ring, angle - Math.PI / 3, 2, fine);
    }
    // A bay with upright strokes, front to back; a low section with level ones.
    if (zone.kind === 'bay') pen.hatch(ring, angle + Math.PI / 2, 5, fine);
    if (zone.kind === 'low') pen.hatch(ring, angle, 5, fine);
    pen.outline(ring, { widthPt: 0.8, colour: ink, dashPt: [4, 2] });
    for (const inner of [columnRing, equipment])
      if (inner) pen.outline(inner, { widthPt: 0.8, colour: ink, dashPt: [4, 2] });
    if (door) {
      pen.line(door.leaf, { widthPt: 0.8, colour: ink });
      pen.line(door.arc, { widthPt: 0.5, colour: ink, dashPt: [2, 2] });
    }
    const width = formatLength(zone.toMm - zone.fromMm, millimetres);
    letterIn(pen, ring, [zoneTitle(zone), width], ink, rotationDeg);
  }
};

/** Draws one run over its plan: zones, the fit to scale, front and back line, lengths with their +/-. */
export const drawRunOverPlan = (
  pen: OverlayPen,
  drawn: {
    readonly document: ProjectDocument;
    readonly run: Run;
    readonly alternative: FitAlternative | null;
    readonly scale: SheetScale;
    readonly range: StockRange;
    readonly rotationDeg: number;
  },
): void => {
  const { document, run, alternative, scale, range, rotationDeg } = drawn;
  const traced = runAsTraced(run);
  drawZones(pen, { document, run, alternative, scale, rotationDeg });
  pen.line(backLineOf(traced, scale), { widthPt: 0.8, colour: front, dashPt: [6, 3] });
  if (alternative) {
    const marks = pieceMarks(runNumberOf(document, run.id), alternative);
    for (const part of fitOnPlan(run, alternative, marks, scale, range)) drawPart(pen, part, rotationDeg);
  }
  pen.line(flattenedPath(traced), { widthPt: 1.8, colour: front });
  for (const straight of straightsOf(traced, scale)) {
    const { at: middle, along, towardsBack } = frontMiddleOf(traced, straight.index);
    const radius = straight.bend ? `  R ${formatLength(straight.bend.radiusMm, millimetres)}` : '';
    const angleRad = readableAngle(Math.atan2(along.y, along.x), rotationDeg);
    const away = pen.units(9);
    pen.letter({
      text: `${formatLength(straight.lengthMm, millimetres)} ${formatPlusMinus(straight.plusMinusMm, millimetres)}${radius}`,
      at: {
        x: middle.x - towardsBack.x * away,
        y: middle.y - towardsBack.y * away,
      },
      angleRad,
      heightPt: usualHeightPt,
      colour: front,
    });
  }
  const firstMm = straightsOf(traced, scale)[0]?.lengthMm ?? 0;
  const first = frontPlaceAt(traced, 0, firstMm * 0.27, scale);
  // Between the start, where a leftover may be lettered in front of the wall, and the middle, where the length stands.
  const clear = -pen.units(20) * mmPerUserUnit(scale);
  pen.letter({
    text: run.name,
    at: paperPointAt(traced, 0, firstMm * 0.27, clear, scale),
    angleRad: readableAngle(Math.atan2(first.along.y, first.along.x), rotationDeg),
    heightPt: usualHeightPt * 1.2,
    colour: front,
  });
};
