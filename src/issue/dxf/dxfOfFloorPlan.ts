import { boxAround } from '../../geometry/box.ts';
import type { Point } from '../../geometry/point.ts';
import { pointBetween } from '../../geometry/vector.ts';
import { verdictWord } from '../../quote/schedule.ts';
import type {
  FloorArc,
  FloorBend,
  FloorPart,
  FloorPlan,
  FloorRun,
  FloorZone,
} from '../settingOut/floorPlan.ts';
import { type Band, placeBands, placeOff, reachOf } from '../settingOut/placeBands.ts';
import { type Lettering, ringLettering, uprightAngle } from '../settingOut/ringLettering.ts';
import { zoneTitle } from '../zoneTitle.ts';
import {
  bandDepthMm,
  figureHeightMm,
  figureShare,
  plainLength,
  straightDimensions,
} from './dxfDimensions.ts';
import type { DxfAttributeDefinition, DxfBlock, DxfDrawing, DxfEntity } from './dxfDrawing.ts';
import { dxfLayers, layerNames } from './dxfLayers.ts';
import { dxfServices } from './dxfServices.ts';

const lettering: Lettering = {
  widthOf: (text, height) => text.length * figureShare * height,
  most: 70,
  least: 18,
};
const bandClearMm = 320;
const datumRadiusMm = 35;
const noteHeightMm = 70;

const definitions: readonly DxfAttributeDefinition[] = [
  { tag: 'MARK', prompt: 'Mark', isVisible: true },
  { tag: 'WIDTH_MM', prompt: 'Width in mm', isVisible: true },
  { tag: 'ITEM', prompt: 'Item of the stock range', isVisible: false },
  { tag: 'NAME', prompt: 'Name', isVisible: false },
  { tag: 'DEPTH_MM', prompt: 'Depth in mm', isVisible: false },
];

const degrees = (angleRad: number): number => (angleRad * 180) / Math.PI;
const distance = (one: Point, other: Point): number => Math.hypot(other.x - one.x, other.y - one.y);

const outline = (layer: string, points: readonly Point[], isClosed = true): DxfEntity => ({
  type: 'polyline',
  layer,
  points,
  isClosed,
});
const line = (layer: string, from: Point, to: Point): DxfEntity => ({ type: 'line', layer, from, to });

/** A front or back line: true arcs where it has any, else one polyline. */
const trueLine = (
  layer: string,
  stretches: readonly FloorArc[],
  points: readonly Point[],
): readonly DxfEntity[] => {
  if (!stretches.some(({ kind }) => kind === 'arc')) return [outline(layer, points, false)];
  return stretches.map((stretch): DxfEntity => {
    if (stretch.kind === 'line') return outline(layer, stretch.points, false);
    const { centre, radius, startAngleRad, sweepRad } = stretch.arc;
    const [from, to] = sweepRad > 0 ? [0, sweepRad] : [sweepRad, 0];
    const turn = (rad: number): number => ((degrees(startAngleRad + rad) % 360) + 360) % 360;
    return { type: 'arc', layer, centre, radiusMm: radius, fromDeg: turn(from), toDeg: turn(to) };
  });
};

/** The centre of an arc as a cross, a line from it to the front's middle, and the radius on it. */
const radiusOf = ({ centre, middle, radiusMm, radiusPlusMinusMm }: FloorBend): readonly DxfEntity[] => {
  const layer = layerNames.dimensions;
  const arm = datumRadiusMm * 1.8;
  const along = Math.atan2(middle.y - centre.y, middle.x - centre.x);
  return [
    line(layer, { x: centre.x - arm, y: centre.y }, { x: centre.x + arm, y: centre.y }),
    line(layer, { x: centre.x, y: centre.y - arm }, { x: centre.x, y: centre.y + arm }),
    line(layer, centre, middle),
    {
      type: 'text',
      layer,
      at: pointBetween(centre, middle, 0.4),
      align: 'middle',
      heightMm: figureHeightMm,
      angleDeg: degrees(uprightAngle(along)),
      text: `R ${plainLength(radiusMm)} ±${Math.ceil(radiusPlusMinusMm * 10 - 1e-6) / 10}`,
    },
  ];
};

const lettersIn = (ring: readonly Point[], lines: readonly string[]): readonly DxfEntity[] | null =>
  ringLettering(ring, lines, lettering)?.map(
    ({ text, at, angleRad, height }): DxfEntity => ({
      type: 'text',
      layer: layerNames.marks,
      at,
      align: 'middle',
      heightMm: height,
      angleDeg: degrees(angleRad),
      text,
    }),
  ) ?? null;

/** Letters on a leader off the side of a straight where its dimensions are not. */
const lettersBeside = (
  run: FloorRun,
  band: Band | undefined,
  straightIndex: number,
  ring: readonly Point[],
  text: string,
): readonly DxfEntity[] => {
  const straight = run.straights[straightIndex];
  const [start, end] = ring;
  if (!straight || !start || !end) return [];
  const sign = band?.side === 'back' ? -1 : 1;
  const middle = { x: (start.x + end.x) / 2, y: (start.y + end.y) / 2 };
  const alongMm =
    (middle.x - straight.start.x) * straight.along.x + (middle.y - straight.start.y) * straight.along.y;
  const edgeMm = sign === 1 ? run.run.depthMm + run.run.allowances.claddingMm : 0;
  const foot = placeOff(straight, alongMm, edgeMm);
  const tip = placeOff(straight, alongMm, edgeMm + sign * 150);
  const outRad = Math.atan2(straight.towardsBack.y * sign, straight.towardsBack.x * sign);
  const angleRad = uprightAngle(outRad);
  const isFlipped = Math.cos(angleRad - outRad) < 0;
  return [
    line(layerNames.marks, foot, tip),
    {
      type: 'text',
      layer: layerNames.marks,
      at: placeOff(straight, alongMm, edgeMm + sign * 180),
      align: isFlipped ? 'end' : 'start',
      heightMm: figureHeightMm,
      angleDeg: degrees(angleRad),
      text,
    },
  ];
};

/** A rectangle's lower left corner, seen with its front at the foot: blocks are never mirrored, so that text in them reads. */
const blockPlace = (ring: readonly Point[]) => {
  const [a, b, , d] = ring as readonly [Point, Point, Point, Point];
  const isBackLeft = (b.x - a.x) * (d.y - a.y) - (b.y - a.y) * (d.x - a.x) > 0;
  const [from, towards] = isBackLeft ? [a, b] : [b, a];
  return {
    at: from,
    angleDeg: degrees(Math.atan2(towards.y - from.y, towards.x - from.x)),
    widthMm: distance(a, b),
    depthMm: distance(a, d),
  };
};

const drawLeftover = (
  run: FloorRun,
  bands: readonly Band[],
  part: FloorPart & { readonly kind: 'leftover' },
): readonly DxfEntity[] => {
  const [a, b, c, d] = part.ring as readonly [Point, Point, Point, Point];
  const layer = layerNames.leftovers;
  const width = plainLength(part.widthMm);
  const verdict = `${verdictWord(part.verdict)}${part.confirmed ? '' : ', measure on site'}`;
  // No diagonal: closes. One: a filler. Two: made to measure.
  const crosses =
    part.verdict === 'closes'
      ? []
      : part.verdict === 'filler'
        ? [line(layer, a, c)]
        : [line(layer, a, c), line(layer, b, d)];
  return [
    outline(layer, part.outline ?? part.ring),
    ...crosses,
    ...(lettersIn(part.letterRing, [part.mark, width, verdict]) ??
      lettersBeside(
        run,
        bands[part.straight ?? 0],
        part.straight ?? 0,
        part.ring,
        `${part.mark} ${width} ${verdict}`,
      )),
  ];
};

const drawZone = (run: FloorRun, bands: readonly Band[], zone: FloorZone): readonly DxfEntity[] => {
  const [a, b, c, d] = zone.ring as readonly [Point, Point, Point, Point];
  const layer =
    zone.kind === 'blocked'
      ? layerNames.blocked
      : zone.kind === 'bay'
        ? layerNames.bays
        : zone.kind === 'low'
          ? layerNames.lowSections
          : layerNames.openings;
  const { columnRing, equipment, door } = zone;
  const name = zoneTitle(zone);
  const width = plainLength(zone.toMm - zone.fromMm);
  return [
    outline(layer, zone.ring),
    ...(zone.kind === 'blocked' ? [line(layer, a, c), line(layer, b, d)] : []),
    ...[columnRing, equipment].flatMap((ring) => (ring ? [outline(layer, ring)] : [])),
    ...[door?.leaf, door?.arc].flatMap((points) =>
      points ? [{ type: 'polyline' as const, layer, points, isClosed: false }] : [],
    ),
    ...(lettersIn(zone.ring, [name, width]) ??
      lettersBeside(run, bands[zone.straight], zone.straight, zone.ring, `${name} ${width}`)),
  ];
};

const drawDatum = (name: string, at: Point, aside: Point): readonly DxfEntity[] => {
  const layer = layerNames.datums;
  const arm = datumRadiusMm * 1.8;
  return [
    { type: 'circle', layer, centre: at, radiusMm: datumRadiusMm },
    line(layer, { x: at.x - arm, y: at.y }, { x: at.x + arm, y: at.y }),
    line(layer, { x: at.x, y: at.y - arm }, { x: at.x, y: at.y + arm }),
    { type: 'text', layer, at: aside, align: 'middle', heightMm: 80, angleDeg: 0, text: name },
  ];
};

/** The name of a stock item's block: letters, digits and dashes only, so that every reader takes it. */
const blockName = (item: string, widthMm: number, depthMm: number): string =>
  `${item}_${plainLength(widthMm)}x${plainLength(depthMm)}`.toUpperCase().replace(/[^A-Z0-9]+/g, '-');

/**
 * The CAD drawing of a sheet's runs: one block for each stock item (and depth) with its attributes, lines by trade,
 * dimensions and notes. Origin at the plan's first datum.
 *
 * @param notes lines written below the drawing: what it is, its scale and +/-, cautions.
 * @param architect the plan's own lines about the runs, drawn first and quietly; none where left out.
 */
export const dxfOfFloorPlan = (
  plan: FloorPlan,
  notes: readonly string[],
  architect: readonly (readonly Point[])[] = [],
): DxfDrawing => {
  const bands = placeBands(plan, {
    depthMm: bandDepthMm,
    clearMm: bandClearMm,
    stepMm: 150,
    reach: (straight) => {
      const [low, high] = reachOf(straight);
      return [low - 100, high + 100];
    },
    cornerMm: 150,
  });
  const blocks = new Map<string, DxfBlock>();
  const entities: DxfEntity[] = architect.map((points) =>
    points.length === 2
      ? line(layerNames.architect, points[0]!, points[1]!)
      : outline(layerNames.architect, points, false),
  );
  const services = dxfServices(plan);

  const insert = (
    part: FloorPart,
    stock: { readonly item: string; readonly name: string; readonly layer: string; readonly widthMm: number },
    letterRing: readonly Point[],
  ): void => {
    const place = blockPlace(part.ring);
    const name = blockName(stock.item, stock.widthMm, place.depthMm);
    if (!blocks.has(name)) {
      const [width, depth] = [stock.widthMm, Math.round(place.depthMm * 1000) / 1000];
      blocks.set(name, {
        name,
        attributes: definitions,
        entities: [
          outline('0', [
            { x: 0, y: 0 },
            { x: width, y: 0 },
            { x: width, y: depth },
            { x: 0, y: depth },
          ]),
        ],
      });
    }
    const width = plainLength(stock.widthMm);
    const letters =
      ringLettering(letterRing, [part.mark, width], lettering) ??
      ringLettering(letterRing, [part.mark, width], { ...lettering, least: 6 });
    const values: Readonly<Record<string, string>> = {
      MARK: part.mark,
      WIDTH_MM: width,
      ITEM: stock.item,
      NAME: stock.name,
      DEPTH_MM: plainLength(place.depthMm),
    };
    entities.push({
      type: 'insert',
      layer: stock.layer,
      block: name,
      at: place.at,
      angleDeg: place.angleDeg,
      attributes: definitions.map(({ tag, isVisible }, index) => {
        const letter = letters?.[index] ?? letters?.[0];
        return {
          tag,
          isVisible: isVisible && letters?.[index] !== undefined,
          value: values[tag] ?? '',
          at: letter?.at ?? place.at,
          heightMm: letter?.height ?? figureHeightMm,
          angleDeg: degrees(letter?.angleRad ?? 0),
          layer: layerNames.marks,
        };
      }),
    });
  };

  for (const [index, run] of plan.runs.entries()) {
    const own = bands[index] ?? [];
    for (const zone of run.zones) entities.push(...drawZone(run, own, zone));
    for (const part of run.parts) {
      if (part.kind === 'leftover') entities.push(...drawLeftover(run, own, part));
      else if (part.kind === 'piece')
        insert(
          part,
          { ...part, layer: part.isStation ? layerNames.stations : layerNames.modules },
          part.letterRing,
        );
      else if (part.kind === 'corner' && part.treatment === 'corner-unit') {
        const corner = run.alternative?.corners[Number(part.part.split(':')[1])];
        insert(
          part,
          {
            item: corner?.item ?? 'corner-unit',
            name: part.name,
            layer: layerNames.corners,
            widthMm: Math.round(distance(part.ring[0]!, part.ring[1]!) * 1000) / 1000,
          },
          part.letterRing,
        );
      } else if (part.kind === 'wedge') {
        const [a, b, c, d] = part.ring as readonly [Point, Point, Point, Point];
        entities.push(
          outline(layerNames.leftovers, part.ring),
          line(layerNames.leftovers, a, c),
          line(layerNames.leftovers, b, d),
        );
      } else {
        entities.push(outline(layerNames.corners, part.ring));
        entities.push(...(lettersIn(part.letterRing, [part.mark]) ?? []));
      }
    }
    entities.push(...trueLine(layerNames.backLine, run.arcs.back, run.backLine));
    entities.push(...trueLine(layerNames.frontLine, run.arcs.front, run.frontLine));
    for (const { bend } of run.straights) if (bend) entities.push(...radiusOf(bend));
    for (const straight of run.straights) {
      const band = own[straight.index];
      if (band) entities.push(...straightDimensions(straight, band));
      entities.push(...drawDatum(straight.datum, straight.start, placeOff(straight, 100, -130)));
    }
    const last = run.straights.at(-1);
    if (last) {
      entities.push(
        ...drawDatum(run.lastDatum.name, run.lastDatum.at, placeOff(last, last.lengthMm - 100, -130)),
      );
      const first = run.straights[0]!;
      const band = own[0];
      const nameOff = band ? band.farMm + (band.side === 'front' ? -1.4 : 1.4) * noteHeightMm : -500;
      const angleRad = uprightAngle(Math.atan2(first.along.y, first.along.x));
      entities.push({
        type: 'text',
        layer: layerNames.notes,
        at: placeOff(first, first.lengthMm / 2, nameOff),
        align: 'middle',
        heightMm: noteHeightMm * 1.3,
        angleDeg: degrees(angleRad),
        text: `${run.number}  ${run.run.name}`,
      });
    }
  }
  entities.push(...services.entities);
  const drawn = boxAround([
    ...architect.flat(),
    ...plan.runs.flatMap(({ frontLine, backLine }) => [...frontLine, ...backLine]),
    ...bands.flat().flatMap(({ ring }) => ring),
  ]) ?? { minX: 0, minY: 0, maxX: 1, maxY: 1 };
  for (const [index, text] of notes.entries())
    entities.push({
      type: 'text',
      layer: layerNames.notes,
      at: { x: drawn.minX, y: drawn.minY - 400 - index * noteHeightMm * 2 },
      align: 'start',
      heightMm: noteHeightMm,
      angleDeg: 0,
      text,
    });
  return {
    layers: Object.values(dxfLayers),
    blocks: [...blocks.values(), ...services.blocks],
    entities,
    textHeightMm: figureHeightMm,
    extent: { ...drawn, minY: drawn.minY - 400 - notes.length * noteHeightMm * 2 },
  };
};
