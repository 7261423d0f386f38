import type { LabelItem, MarkOffset } from './displayList.ts';
import { type LabelPicture, labelPicture } from './paintCache.ts';
import type { PaintSetting } from './paintSetting.ts';
import { paperToScreenMatrix, pxPerPaperUnit, type ViewTransform } from './viewTransform.ts';

const DEFAULT_SIZE_PX = 12;
const HALO_PX = 3.5;
const QUIET_GAP_EM = 0.3;
/** Left free in a label's room, so that the labels of neighbours don't run together. */
const ROOM_GAP_PX = 5;

/** A label with a fixed shift on the screen, which marks use for their word. */
type PlacedLabel = LabelItem & { readonly offsetPx?: MarkOffset };

/** Where and how a label stands on the screen. */
export interface LabelPlace {
  readonly x: number;
  readonly y: number;
  /** Clockwise on the screen, always within a quarter turn of level so that text reads from below or from the right. */
  readonly angleRad: number;
  readonly align: 'start' | 'middle' | 'end';
}

/** Places a label: follows its direction on the paper, turned upright where the page's rotation would upend it. */
export function placeLabel(view: ViewTransform, item: PlacedLabel): LabelPlace {
  const [a, b, c, d, e, f] = paperToScreenMatrix(view);
  const scale = pxPerPaperUnit(view);
  let x = a * item.at.x + c * item.at.y + e + (item.offsetPx?.xPx ?? 0);
  let y = b * item.at.x + d * item.at.y + f + (item.offsetPx?.yPx ?? 0);
  if (item.shift) {
    const cos = Math.cos(item.shift.directionRad) / scale;
    const sin = Math.sin(item.shift.directionRad) / scale;
    x += (a * cos + c * sin) * item.shift.px;
    y += (b * cos + d * sin) * item.shift.px;
  }
  const align = item.align ?? 'middle';
  if (item.alongRad === undefined) return { x, y, angleRad: 0, align };
  const cos = Math.cos(item.alongRad);
  const sin = Math.sin(item.alongRad);
  const angleRad = Math.atan2(b * cos + d * sin, a * cos + c * sin);
  // Straight up reads from the right, as on drawings (ISO 129-1 reading directions, from memory).
  const isUpended = angleRad > Math.PI / 2 - 1e-6 || angleRad <= -Math.PI / 2 - 1e-6;
  if (!isUpended) return { x, y, angleRad, align };
  const opposite = { start: 'end', middle: 'middle', end: 'start' } as const;
  return { x, y, angleRad: angleRad > 0 ? angleRad - Math.PI : angleRad + Math.PI, align: opposite[align] };
}

/** Draws a label with a halo of paper around its letters. */
export function paintLabel(setting: PaintSetting, item: PlacedLabel): void {
  const { context, view, cache, devicePixelRatio } = setting;
  const sizePx = item.sizePx ?? DEFAULT_SIZE_PX;
  if (item.roomAcrossUnits !== undefined && item.roomAcrossUnits * pxPerPaperUnit(view) < sizePx) return;
  const roomPx = item.roomUnits === undefined ? Infinity : item.roomUnits * pxPerPaperUnit(view);
  // No letter is narrower than about a quarter of its size: saves measuring what can't find room.
  if (roomPx < item.text.length * sizePx * 0.25) return;
  const place = placeLabel(view, item);
  const angle = Math.round(place.angleRad * 1000) / 1000;
  const state = item.state ?? 'normal';
  const style = `${sizePx} ${item.isStrong ? 's' : ''} ${item.tone ?? 'ink'} ${state} ${place.align} ${angle}`;
  const key = `${item.text}\n${item.quietText ?? ''}\n${style} ${devicePixelRatio}`;
  const picture = labelPicture(cache, key, () => drawLabel(setting, item, place.align, angle, sizePx));
  if (picture.widthPx + ROOM_GAP_PX > roomPx) return;
  // On whole device pixels, so that the letters stay as sharp as they were drawn.
  const x = Math.round(place.x * devicePixelRatio + picture.leftPx) / devicePixelRatio;
  const y = Math.round(place.y * devicePixelRatio + picture.topPx) / devicePixelRatio;
  const { width, height } = picture.canvas;
  context.drawImage(picture.canvas, x, y, width / devicePixelRatio, height / devicePixelRatio);
}

function drawLabel(
  { palette, devicePixelRatio }: PaintSetting,
  item: LabelItem,
  align: LabelPlace['align'],
  angleRad: number,
  sizePx: number,
): LabelPicture {
  const canvas = document.createElement('canvas');
  const context = canvas.getContext('2d');
  if (context === null) return { canvas, leftPx: 0, topPx: 0, widthPx: 0 };
  const strongFont = `${item.isStrong ? 650 : 500} ${sizePx}px ${palette.fontFamily}`;
  const quietFont = `400 ${sizePx}px ${palette.fontFamily}`;
  context.font = strongFont;
  const width = context.measureText(item.text).width;
  context.font = quietFont;
  const quietGap = item.quietText ? sizePx * QUIET_GAP_EM : 0;
  const widthPx = width + quietGap + (item.quietText ? context.measureText(item.quietText).width : 0);
  const start = { start: 0, middle: -widthPx / 2, end: -widthPx }[align];

  // The smallest upright canvas that holds the turned text with its halo.
  const cos = Math.cos(angleRad);
  const sin = Math.sin(angleRad);
  const reach = sizePx * 0.75 + HALO_PX;
  const corners = [start - HALO_PX, start + widthPx + HALO_PX].flatMap((along) =>
    [-reach, reach].map((across) => [along * cos - across * sin, along * sin + across * cos] as const),
  );
  const leftPx = Math.floor(Math.min(...corners.map(([x]) => x)) * devicePixelRatio);
  const topPx = Math.floor(Math.min(...corners.map(([, y]) => y)) * devicePixelRatio);
  canvas.width = Math.ceil(Math.max(...corners.map(([x]) => x)) * devicePixelRatio) - leftPx;
  canvas.height = Math.ceil(Math.max(...corners.map(([, y]) => y)) * devicePixelRatio) - topPx;

  context.setTransform(devicePixelRatio, 0, 0, devicePixelRatio, -leftPx, -topPx);
  context.rotate(angleRad);
  context.textBaseline = 'middle';
  context.lineJoin = 'round';
  context.strokeStyle = palette.paper;
  context.lineWidth = HALO_PX;
  const write = (text: string, font: string, x: number, colour: string): void => {
    context.font = font;
    context.strokeText(text, x, 0);
    context.fillStyle = colour;
    context.fillText(text, x, 0);
  };
  if (item.quietText) write(item.quietText, quietFont, start + width + quietGap, palette.colour('quiet'));
  const isRaised = item.state !== undefined && item.state !== 'normal';
  write(item.text, strongFont, start, palette.colour(isRaised ? 'accent' : (item.tone ?? 'ink')));
  if (item.state === 'selected') context.fillRect(start, sizePx * 0.62, width, 1.5);
  return { canvas, leftPx, topPx, widthPx };
}
