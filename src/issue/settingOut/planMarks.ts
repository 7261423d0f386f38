import type { Point } from '../../geometry/point.ts';
import { polygonPath } from '../drawing/drawnPath.ts';
import { hatchTiles } from '../drawing/hatchTiles.ts';
import type { PaperPen } from '../drawing/paperPen.ts';
import type { FloorPart, FloorZone } from './floorPlan.ts';
import { ink, lines, quiet, vermilion, white } from './planInk.ts';
import { middleOf } from './ringLettering.ts';

/** The graphics state of the page that lets the plan shine through the pieces. */
export const pieceVeil = 'PieceVeil';

/** A small disc as a ring. */
export const dot = ({ x, y }: Point, radius: number): readonly Point[] =>
  Array.from({ length: 12 }, (_, step) => ({
    x: x + radius * Math.cos((step * Math.PI) / 6),
    y: y + radius * Math.sin((step * Math.PI) / 6),
  }));

const pathOf = (ring: readonly Point[]) => polygonPath(ring.map(({ x, y }) => [x, y] as const));

/** Draws a piece, a corner piece or a leftover in its own line and hatch. */
export const drawPart = (pen: PaperPen, part: FloorPart, paper: (point: Point) => Point): void => {
  const ring = (part.outline ?? part.ring).map(paper);
  if (part.kind === 'wedge') {
    pen.ring(ring, { fill: white, alpha: pieceVeil });
    pen.hatch(pathOf(ring), hatchTiles['made-to-measure'], vermilion);
    pen.ring(ring, { line: { ...lines.leftover, widthMm: 0.18 } });
    return;
  }
  if (part.kind === 'leftover') {
    pen.ring(ring, { fill: white, alpha: pieceVeil });
    pen.hatch(pathOf(ring), hatchTiles[part.verdict], vermilion);
    pen.ring(ring, { line: lines.leftover });
    return;
  }
  const isStation = part.kind === 'piece' && part.isStation;
  pen.ring(ring, { fill: white, alpha: pieceVeil, line: isStation ? lines.station : lines.piece });
  if (isStation) pen.ring(inset(ring, 0.7), { line: { ...lines.station, widthMm: 0.13 } });
};

/** A ring drawn in towards its middle by about `by`. */
const inset = (ring: readonly Point[], by: number): readonly Point[] => {
  const middle = middleOf(ring);
  return ring.map(({ x, y }, index) => {
    const before = ring[(index + ring.length - 1) % ring.length]!;
    const after = ring[(index + 1) % ring.length]!;
    const unit = (to: Point): Point => {
      const length = Math.hypot(to.x - x, to.y - y) || 1;
      return { x: (to.x - x) / length, y: (to.y - y) / length };
    };
    const [one, other] = [unit(before), unit(after)];
    const most = Math.hypot(middle.x - x, middle.y - y) * 0.5;
    const step = Math.min(by, most);
    return { x: x + (one.x + other.x) * step, y: y + (one.y + other.y) * step };
  });
};

/** Draws an opening, a blocked zone or its column, a bay with the equipment's outline and door, a low section. */
export const drawZone = (pen: PaperPen, zone: FloorZone, paper: (point: Point) => Point): void => {
  const { kind, columnRing, equipment, door } = zone;
  const ring = zone.ring.map(paper);
  const line = kind === 'blocked' ? lines.blocked : lines.opening;
  pen.ring(ring, { fill: white, alpha: pieceVeil });
  if (kind !== 'opening') pen.hatch(pathOf(ring), hatchTiles[kind], quiet);
  pen.ring(ring, { line });
  if (columnRing) pen.ring(columnRing.map(paper), { line });
  if (equipment) pen.ring(equipment.map(paper), { line });
  if (!door) return;
  pen.line(door.leaf.map(paper), lines.piece);
  pen.line(door.arc.map(paper), lines.opening);
};

/** Draws a datum: a circle with two of its quarters filled. */
export const drawDatum = (pen: PaperPen, { x, y }: Point): void => {
  const radius = 1.5;
  pen.ring(dotFine({ x, y }, radius), { fill: white, line: lines.datum });
  for (const quarter of [0, 2]) pen.ring([{ x, y }, ...arc({ x, y }, radius, quarter)], { fill: ink });
};

const arc = ({ x, y }: Point, radius: number, quarter: number): readonly Point[] =>
  Array.from({ length: 9 }, (_, step) => {
    const angle = ((quarter + step / 8) * Math.PI) / 2;
    return { x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) };
  });
const dotFine = (centre: Point, radius: number): readonly Point[] =>
  [0, 1, 2, 3].flatMap((quarter) => arc(centre, radius, quarter).slice(0, 8));
