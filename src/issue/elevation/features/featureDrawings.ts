import type { ElevationFeature, StockItem } from '../../../stock/stockSchema.ts';
import type { ElevationBuild } from '../elevationBuild.ts';
import type { DrawFeature, ElevationPen } from './drawFeature.ts';
import { drawBasin, drawIceWell, drawPanCutOuts, drawSink } from './letIn.ts';
import { drawBeerTaps, drawDripTray, drawGlassRinser, drawTap, drawTill, drawWasteChute } from './onTop.ts';
import {
  drawBasketRack,
  drawBlenderShelf,
  drawDoor,
  drawDrawer,
  drawShelf,
  drawSpeedRail,
} from './underTop.ts';

/** How each feature of the stock range is drawn, from the farthest behind to the nearest to the bartender. */
const drawings = {
  shelf: drawShelf,
  'basket-rack': drawBasketRack,
  sink: drawSink,
  basin: drawBasin,
  'pan-cut-outs': drawPanCutOuts,
  'ice-well': drawIceWell,
  drawer: drawDrawer,
  door: drawDoor,
  'waste-chute': drawWasteChute,
  'blender-shelf': drawBlenderShelf,
  'speed-rail': drawSpeedRail,
  'drip-tray': drawDripTray,
  tap: drawTap,
  'glass-rinser': drawGlassRinser,
  'beer-taps': drawBeerTaps,
  till: drawTill,
} as const satisfies Readonly<Record<ElevationFeature, DrawFeature>>;

const order = Object.keys(drawings) as readonly ElevationFeature[];

/** Draws an item's features with pens that each tag what they draw by the feature's name. */
export const drawFeatures = (
  item: Pick<StockItem, 'elevation' | 'hand'>,
  penFor: (feature: ElevationFeature) => ElevationPen,
  build: ElevationBuild,
): ElevationPen['shapes'] =>
  order.flatMap((name) =>
    (item.elevation ?? [])
      .filter(({ feature }) => feature === name)
      .flatMap(({ fromMm, toMm, count }) => {
        const pen = penFor(name);
        drawings[name](pen, { from: fromMm, to: toMm, count: count ?? 1, hand: item.hand ?? 'left' }, build);
        return pen.shapes;
      }),
  );
