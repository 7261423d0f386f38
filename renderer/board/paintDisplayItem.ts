import type { PaperPoint } from '../../src/geometry/point.ts';
import type {
  DisplayItem,
  ItemState,
  LineStyle,
  MarkItem,
  PolygonItem,
  PolylineItem,
  SegmentsItem,
} from './displayList.ts';
import { hatchFill } from './hatchPattern.ts';
import { wordOfMark } from './labelLayout.ts';
import { paintLabel } from './paintLabel.ts';
import type { PaintSetting } from './paintSetting.ts';
import { paperToScreenMatrix } from './viewTransform.ts';

const DEFAULT_WASH = 0.12;
const HANDLE_PX = 7;
/** Smaller than this on the screen, a hatch is only noise. */
const LEAST_HATCHED_PX = 5;

/** Draws one item of a display list as it lies in the view. */
export function paintDisplayItem(setting: PaintSetting, item: DisplayItem): void {
  switch (item.kind) {
    case 'polyline':
      paintPolyline(setting, item);
      break;
    case 'segments':
      paintSegments(setting, item);
      break;
    case 'polygon':
      paintPolygon(setting, item);
      break;
    case 'label': {
      const move = setting.moves.get(item);
      if (move) paintLabel(setting, item, move);
      break;
    }
    case 'mark':
      paintMark(setting, item);
      break;
  }
}

function paintPolyline(setting: PaintSetting, item: PolylineItem): void {
  const { context } = setting;
  context.beginPath();
  tracePath(setting, item.points, false);
  emphasise(setting, item.state, item.line.widthPx);
  strokePath(setting, item.line);
  if (item.state === 'selected' && item.hasHandles) paintHandles(setting, item.handlePoints ?? item.points);
}

function paintSegments(setting: PaintSetting, { ends, line }: SegmentsItem): void {
  const { context, view } = setting;
  const [a, b, c, d, e, f] = paperToScreenMatrix(view);
  context.beginPath();
  for (let i = 0; i + 3 < ends.length; i += 4) {
    const [x0, y0, x1, y1] = [ends[i]!, ends[i + 1]!, ends[i + 2]!, ends[i + 3]!];
    context.moveTo(a * x0 + c * y0 + e, b * x0 + d * y0 + f);
    context.lineTo(a * x1 + c * y1 + e, b * x1 + d * y1 + f);
  }
  strokePath(setting, line);
}

function paintPolygon(setting: PaintSetting, item: PolygonItem): void {
  const { context, palette } = setting;
  context.beginPath();
  const size = tracePath(setting, item.points, true);
  for (const hole of item.holes ?? []) tracePath(setting, hole, true);
  if (item.fill) {
    context.globalAlpha = item.fill.opacity ?? DEFAULT_WASH;
    context.fillStyle = palette.colour(item.fill.tone);
    context.fill('evenodd');
    context.globalAlpha = 1;
  }
  if (item.hatch && size > LEAST_HATCHED_PX) {
    const { view, cache, devicePixelRatio } = setting;
    const colour = palette.colour(item.hatch.tone);
    const { originX, originY } = view;
    context.fillStyle = hatchFill(
      cache,
      context,
      item.hatch.kind,
      colour,
      devicePixelRatio,
      originX,
      originY,
    );
    context.fill('evenodd');
  }
  emphasise(setting, item.state, item.line?.widthPx ?? 1);
  if (item.line) strokePath(setting, item.line);
  if (item.state === 'selected' && item.hasHandles) paintHandles(setting, item.points);
}

/** Adds the points to the current path; returns the shorter side of their box on the screen, in CSS pixels. */
function tracePath(setting: PaintSetting, points: readonly PaperPoint[], isClosed: boolean): number {
  const { context, view } = setting;
  const [a, b, c, d, e, f] = paperToScreenMatrix(view);
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  let isFirst = true;
  for (const point of points) {
    const x = a * point.x + c * point.y + e;
    const y = b * point.x + d * point.y + f;
    if (isFirst) context.moveTo(x, y);
    else context.lineTo(x, y);
    isFirst = false;
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  if (isClosed) context.closePath();
  return Math.min(maxX - minX, maxY - minY);
}

function strokePath({ context, palette }: PaintSetting, line: LineStyle): void {
  context.strokeStyle = palette.colour(line.tone);
  context.lineWidth = line.widthPx;
  context.lineJoin = 'round';
  context.lineCap = line.dashPx ? 'butt' : 'round';
  context.globalAlpha = line.opacity ?? 1;
  if (line.dashPx) context.setLineDash([...line.dashPx]);
  context.stroke();
  if (line.dashPx) context.setLineDash([]);
  context.globalAlpha = 1;
}

/** A pale band around what is pointed at, a stronger one around what is selected. */
function emphasise({ context, palette }: PaintSetting, state: ItemState | undefined, widthPx: number): void {
  if (state === undefined || state === 'normal') return;
  context.strokeStyle = palette.colour('accent');
  context.lineJoin = 'round';
  context.lineCap = 'round';
  context.lineWidth = widthPx + (state === 'selected' ? 8 : 5);
  context.globalAlpha = state === 'selected' ? 0.3 : 0.18;
  context.stroke();
  context.globalAlpha = 1;
}

function paintHandles({ context, view, palette }: PaintSetting, points: readonly PaperPoint[]): void {
  const [a, b, c, d, e, f] = paperToScreenMatrix(view);
  context.fillStyle = palette.paper;
  context.strokeStyle = palette.colour('accent');
  context.lineWidth = 1.5;
  context.beginPath();
  for (const { x, y } of points) {
    const left = a * x + c * y + e - HANDLE_PX / 2;
    const top = b * x + d * y + f - HANDLE_PX / 2;
    context.rect(left, top, HANDLE_PX, HANDLE_PX);
  }
  context.fill();
  context.stroke();
}

function paintMark(setting: PaintSetting, item: MarkItem): void {
  const { context, view, palette } = setting;
  const [a, b, c, d, e, f] = paperToScreenMatrix(view);
  context.save();
  context.translate(a * item.at.x + c * item.at.y + e, b * item.at.x + d * item.at.y + f);
  if (item.alongRad !== undefined) {
    const cos = Math.cos(item.alongRad);
    const sin = Math.sin(item.alongRad);
    context.rotate(Math.atan2(b * cos + d * sin, a * cos + c * sin));
  }
  context.beginPath();
  for (const stroke of item.strokes) {
    stroke.forEach(({ xPx, yPx }, index) => {
      if (index === 0) context.moveTo(xPx, yPx);
      else context.lineTo(xPx, yPx);
    });
  }
  // Paper around the strokes keeps them legible over dense linework.
  context.strokeStyle = palette.paper;
  context.lineWidth = item.line.widthPx + 3;
  context.lineCap = 'round';
  context.lineJoin = 'round';
  context.stroke();
  strokePath(setting, item.line);
  context.restore();
  const word = wordOfMark(item);
  const move = setting.moves.get(item);
  if (word && move) paintLabel(setting, word, move);
}
