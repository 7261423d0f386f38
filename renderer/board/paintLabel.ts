import type { LabelItem } from './displayList.ts';
import type { LabelMove } from './labelBox.ts';
import { boxAt, defaultLabelPx, type PlacedLabel } from './labelLayout.ts';
import { leaderLine } from './leaderLine.ts';
import type { MarkPalette } from './markPalette.ts';
import { type LabelPicture, labelPicture, type PaintCache } from './paintCache.ts';
import type { PaintSetting } from './paintSetting.ts';
import { type LabelPlace, placeLabel } from './placeLabel.ts';

const HALO_PX = 3.5;
const QUIET_GAP_EM = 0.3;

const fontsOf = (item: LabelItem, sizePx: number, { fontFamily }: MarkPalette) => ({
  strong: `${item.isStrong ? 650 : 500} ${sizePx}px ${fontFamily}`,
  quiet: `400 ${sizePx}px ${fontFamily}`,
});

/** Length of a label's text on the screen, in CSS pixels, measured once. */
export function labelLengthPx(
  context: CanvasRenderingContext2D,
  cache: PaintCache,
  palette: MarkPalette,
  item: LabelItem,
): number {
  const sizePx = (item.sizePx ?? defaultLabelPx) * palette.textScale;
  const key = `${item.text}\n${item.quietText ?? ''}\n${sizePx} ${item.isStrong ? 's' : ''}`;
  const known = cache.lengths.get(key);
  if (known !== undefined) return known;
  const { strong, quiet } = fontsOf(item, sizePx, palette);
  context.font = strong;
  let lengthPx = context.measureText(item.text).width;
  if (item.quietText) {
    context.font = quiet;
    lengthPx += sizePx * QUIET_GAP_EM + context.measureText(item.quietText).width;
  }
  cache.lengths.set(key, lengthPx);
  return lengthPx;
}

/** The line to what a label belongs to, where the label had to go far off. */
function paintLeader(setting: PaintSetting, item: PlacedLabel, move: LabelMove, sizePx: number): void {
  const { context, view, palette } = setting;
  const place = placeLabel(view, item, palette.textScale);
  const box = boxAt(place, move, labelLengthPx(context, setting.cache, palette, item), sizePx);
  const line = leaderLine(box, move, placeLabel(view, { ...item, shift: undefined }));
  if (!line) return;
  context.save();
  context.lineWidth = 1;
  context.strokeStyle = palette.colour(item.tone ?? 'ink');
  context.beginPath();
  context.moveTo(line.from.x, line.from.y);
  context.lineTo(line.to.x, line.to.y);
  context.stroke();
  context.restore();
}

/** Draws a label where the layout put it, with a halo of paper around its letters. */
export function paintLabel(setting: PaintSetting, item: PlacedLabel, move: LabelMove): void {
  const { context, view, cache, palette, devicePixelRatio } = setting;
  const sizePx = (item.sizePx ?? defaultLabelPx) * palette.textScale;
  const place = placeLabel(view, item, palette.textScale);
  if (move.hasLeader) paintLeader(setting, item, move, sizePx);
  const angle = Math.round(place.angleRad * 1000) / 1000;
  const state = item.state ?? 'normal';
  const style = `${sizePx} ${item.isStrong ? 's' : ''} ${item.tone ?? 'ink'} ${state} ${place.align} ${angle}`;
  const key = `${item.text}\n${item.quietText ?? ''}\n${style} ${devicePixelRatio}`;
  const picture = labelPicture(cache, key, () => drawLabel(setting, item, place.align, angle, sizePx));
  // On whole device pixels, so that the letters stay as sharp as they were drawn.
  const x = Math.round((place.x + move.dxPx) * devicePixelRatio + picture.leftPx) / devicePixelRatio;
  const y = Math.round((place.y + move.dyPx) * devicePixelRatio + picture.topPx) / devicePixelRatio;
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
  if (context === null) return { canvas, leftPx: 0, topPx: 0 };
  const { strong: strongFont, quiet: quietFont } = fontsOf(item, sizePx, palette);
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
  return { canvas, leftPx, topPx };
}
