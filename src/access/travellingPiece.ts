import { demoModuleMassKg } from '../stock/demoMass.ts';
import { framesOf } from '../stock/framesOf.ts';
import type { CornerUnit, PackedSize, StockItem, StockRange, Support } from '../stock/stockSchema.ts';
import type { AccessPiece } from './wayInSchema.ts';

/** Room that packing takes in each direction, both sides together, in mm (common practice, no source). */
const packingMm = 60;

/** A piece of a fit as it travels: its packed box, where its figures come from, and how it travels with frames off. */
export interface TravellingPiece {
  readonly piece: AccessPiece;
  readonly support: Support;
  /** `range`: given by the stock range. `geometry`: worked out from the piece's own dimensions and material. */
  readonly sizeFrom: 'range' | 'geometry';
  readonly massFrom: 'range' | 'geometry';
  /** The same with its frames taken off and travelling apart; null where it has no frames of its own. */
  readonly framesOff: AccessPiece | null;
}

interface Build {
  readonly widthMm: number;
  readonly depthMm: number;
  readonly heightMm: number;
  readonly frames: number;
}

/**
 * Mass from geometry, in kg: sheet and core of the top, undershelf, frames and rails, with the densities that
 * `demoModuleMassKg` names (EN 10088-1). That a piece is built so is common practice, no source.
 */
const massFromGeometry = (range: StockRange, { widthMm, depthMm, frames }: Build): number =>
  demoModuleMassKg({ widthMm, depthMm, frames, topMm: range.heights.topMm, feetMm: range.heights.feetMm });

const travelling = (
  range: StockRange,
  id: string,
  support: Support,
  build: Build,
  given: { readonly packed?: PackedSize | undefined; readonly massKg?: number | undefined },
): TravellingPiece => {
  const massKg = given.massKg ?? massFromGeometry(range, build);
  const packed: PackedSize = given.packed ?? {
    lengthMm: build.widthMm + packingMm,
    widthMm: build.depthMm + packingMm,
    heightMm: build.heightMm + packingMm,
  };
  const piece: AccessPiece = { id, massKg, ...packed };
  const framesKg = massFromGeometry(range, build) - massFromGeometry(range, { ...build, frames: 0 });
  const flatMm = range.heights.topThicknessMm + range.heights.upstandMm + packingMm;
  return {
    piece,
    support,
    sizeFrom: given.packed ? 'range' : 'geometry',
    massFrom: given.massKg === undefined ? 'geometry' : 'range',
    framesOff:
      build.frames > 0 && flatMm < packed.heightMm
        ? { ...piece, heightMm: flatMm, massKg: Math.max(0, massKg - framesKg) }
        : null,
  };
};

/**
 * A stock item as it travels to a run of a depth. Packed size and mass are the range's; where it gives none, they are
 * worked out and say so.
 */
export const travellingItem = (
  range: StockRange,
  item: StockItem,
  run: { readonly depthMm: number },
  id: string = item.id,
): TravellingPiece =>
  travelling(
    range,
    id,
    item.support,
    {
      widthMm: item.widthMm,
      depthMm: item.depthMm ?? run.depthMm,
      heightMm: item.heightMm ?? range.heights.topMm,
      frames: framesOf(range, item),
    },
    item,
  );

/** A corner unit as it travels: square on plan. */
export const travellingCorner = (
  range: StockRange,
  unit: CornerUnit,
  id: string = unit.id,
): TravellingPiece =>
  travelling(
    range,
    id,
    'standing',
    {
      widthMm: unit.sizeMm,
      depthMm: unit.sizeMm,
      heightMm: range.heights.topMm,
      frames: unit.frames ?? framesOf(range, { widthMm: unit.sizeMm, support: 'standing' }),
    },
    unit,
  );

/** A made-to-measure piece of a width as it travels: built like the range's modules. */
export const travellingMadeToMeasure = (
  range: StockRange,
  widthMm: number,
  run: { readonly depthMm: number },
  id: string,
): TravellingPiece =>
  travelling(
    range,
    id,
    'standing',
    {
      widthMm,
      depthMm: run.depthMm,
      heightMm: range.heights.topMm,
      frames: framesOf(range, { widthMm, support: 'standing' }),
    },
    {},
  );

/**
 * The wedge of a mitred corner as it travels: a kite on plan, two sides of d tan(|turn|/2) at the front and two of the
 * depth d meeting at the back, boxed along its axis of symmetry, d / cos(|turn|/2) by 2 d sin(|turn|/2). It is built like
 * the range's modules; a module of the same floor area, d tan(|turn|/2) wide, gives its mass.
 */
export const travellingMitre = (
  range: StockRange,
  turnDeg: number,
  { depthMm }: { readonly depthMm: number },
  id: string,
): TravellingPiece => {
  const halfRad = (Math.abs(turnDeg) / 2) * (Math.PI / 180);
  const axisMm = depthMm / Math.cos(halfRad);
  const acrossMm = 2 * depthMm * Math.sin(halfRad);
  const widthMm = depthMm * Math.tan(halfRad);
  const frames = framesOf(range, { widthMm, support: 'standing' });
  const build: Build = { widthMm, depthMm, heightMm: range.heights.topMm, frames };
  const made = travelling(range, id, 'standing', build, {
    packed: {
      lengthMm: Math.max(axisMm, acrossMm) + packingMm,
      widthMm: Math.min(axisMm, acrossMm) + packingMm,
      heightMm: build.heightMm + packingMm,
    },
  });
  return { ...made, sizeFrom: 'geometry' };
};

/** A flat part that travels by itself, packed. */
export const looseBox = (
  id: string,
  lengthMm: number,
  widthMm: number,
  thicknessMm: number,
  massKg: number,
): AccessPiece => ({
  id,
  lengthMm: lengthMm + packingMm,
  widthMm: widthMm + packingMm,
  heightMm: thicknessMm + packingMm,
  massKg,
});

/**
 * A stock item that is made wider, as it travels: packed longer by as much, heavier by what the geometry of the wider one
 * has more.
 */
export const travellingWidened = (
  range: StockRange,
  item: StockItem,
  widenedMm: number,
  run: { readonly depthMm: number },
  id: string = item.id,
): TravellingPiece => {
  const widthMm = item.widthMm + widenedMm;
  const build = { depthMm: item.depthMm ?? run.depthMm, heightMm: item.heightMm ?? range.heights.topMm };
  const wide: Build = { ...build, widthMm, frames: framesOf(range, { ...item, widthMm }) };
  const stock: Build = { ...build, widthMm: item.widthMm, frames: framesOf(range, item) };
  const moreKg = massFromGeometry(range, wide) - massFromGeometry(range, stock);
  const { packed, massKg } = item;
  return travelling(range, id, item.support, wide, {
    ...(packed ? { packed: { ...packed, lengthMm: packed.lengthMm + widenedMm } } : {}),
    ...(massKg === undefined ? {} : { massKg: Math.round((massKg + moreKg) * 10) / 10 }),
  });
};
