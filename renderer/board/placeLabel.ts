import type { LabelItem, MarkOffset } from './displayList.ts';
import { paperToScreenMatrix, pxPerPaperUnit, type ViewTransform } from './viewTransform.ts';

/** Where and how a label stands on the screen. */
export interface LabelPlace {
  readonly x: number;
  readonly y: number;
  /** Clockwise on the screen, always within a quarter turn of level so that text reads from below or from the right. */
  readonly angleRad: number;
  readonly align: 'start' | 'middle' | 'end';
}

/**
 * Places a label: follows its direction on the paper, turned upright where the page's rotation would upend it.
 *
 * @param textScale how much larger than usual text is; its distance from what it belongs to grows with it
 */
export function placeLabel(
  view: ViewTransform,
  item: LabelItem & { readonly offsetPx?: MarkOffset },
  textScale = 1,
): LabelPlace {
  const [a, b, c, d, e, f] = paperToScreenMatrix(view);
  const scale = pxPerPaperUnit(view);
  let x = a * item.at.x + c * item.at.y + e + (item.offsetPx?.xPx ?? 0);
  let y = b * item.at.x + d * item.at.y + f + (item.offsetPx?.yPx ?? 0);
  if (item.shift) {
    const cos = Math.cos(item.shift.directionRad) / scale;
    const sin = Math.sin(item.shift.directionRad) / scale;
    x += (a * cos + c * sin) * item.shift.px * textScale;
    y += (b * cos + d * sin) * item.shift.px * textScale;
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
