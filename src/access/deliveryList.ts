import type { Support } from '../stock/stockSchema.ts';

/** A piece as it is delivered: its packed box, which stays upright in the vehicle, and how it will be supported. */
export interface DeliveryPiece {
  readonly id: string;
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly massKg: number;
  readonly support: Support;
}

/** The load space of a vehicle, as the user measured it: clear of wheel arches, and its payload. */
export interface Vehicle {
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly payloadKg: number;
}

/** Where a piece stands in the vehicle: `fromBulkheadMm` along it, `fromSideMm` across it. */
export interface LoadedPiece {
  readonly id: string;
  readonly fromBulkheadMm: number;
  readonly fromSideMm: number;
  readonly alongMm: number;
  readonly acrossMm: number;
}

export interface Trip {
  /** In the order of loading, from the bulkhead to the door. */
  readonly loaded: readonly LoadedPiece[];
  /** The reverse: what is needed first on site comes off first. */
  readonly unloadingOrder: readonly string[];
  readonly count: number;
  readonly massKg: number;
  readonly floorAreaM2: number;
  /** Part of the vehicle's floor that is stood on, 0 to 1. */
  readonly floorShare: number;
}

export interface DeliveryList {
  readonly trips: readonly Trip[];
  /** Pieces that no trip of this vehicle can take. */
  readonly left: readonly {
    readonly id: string;
    readonly reason: 'too-large-for-vehicle' | 'too-heavy-for-vehicle';
  }[];
}

/** Standing pieces go in first, then those that hang between them, then what is let into or put onto a standing one. */
const INSTALLED: readonly Support[] = ['standing', 'carried', 'drop-in', 'countertop'];

/**
 * Shares pieces out over trips of one vehicle, so that they come off in the order in which they are installed.
 *
 * Pieces stand on the floor, upright, turned by a right angle where that helps, never on each other, in rows across
 * the vehicle. A piece that no longer fits starts the next trip, which keeps the order at the price of some floor: the
 * number of trips is one that works, not a proven minimum. Common practice, no source.
 *
 * @param pieces in the order along the run; the order among equals is kept
 */
export const deliveryList = (pieces: readonly DeliveryPiece[], vehicle: Vehicle): DeliveryList => {
  const left: DeliveryList['left'][number][] = [];
  const trips: Trip[] = [];
  let aboard: readonly DeliveryPiece[] = [];
  let stowed: readonly LoadedPiece[] = [];
  const close = (): void => {
    if (aboard.length > 0) trips.push(tripOf(aboard, stowed, vehicle));
  };
  for (const piece of inInstallationOrder(pieces)) {
    const alone = stow([piece], vehicle);
    if (alone === null) {
      left.push({ id: piece.id, reason: 'too-large-for-vehicle' });
      continue;
    }
    if (piece.massKg > vehicle.payloadKg) {
      left.push({ id: piece.id, reason: 'too-heavy-for-vehicle' });
      continue;
    }
    const together = [...aboard, piece];
    const fits = massOf(together) <= vehicle.payloadKg ? stow(together, vehicle) : null;
    if (fits === null) close();
    aboard = fits === null ? [piece] : together;
    stowed = fits ?? alone;
  }
  close();
  return { trips, left };
};

/** Standing before carried before drop-in before countertop; otherwise as given. */
export const inInstallationOrder = (pieces: readonly DeliveryPiece[]): readonly DeliveryPiece[] =>
  INSTALLED.flatMap((support) => pieces.filter((piece) => piece.support === support));

const massOf = (pieces: readonly DeliveryPiece[]): number =>
  pieces.reduce((sum, piece) => sum + piece.massKg, 0);

/** Rows from the bulkhead, the last piece to be installed first; null where they do not all fit. */
const stow = (installed: readonly DeliveryPiece[], vehicle: Vehicle): readonly LoadedPiece[] | null => {
  const loaded: LoadedPiece[] = [];
  let rowMm = 0;
  let rowDepthMm = 0;
  let usedMm = 0;
  for (const piece of [...installed].reverse()) {
    if (piece.heightMm > vehicle.heightMm) return null;
    const ways = [
      { alongMm: piece.widthMm, acrossMm: piece.lengthMm },
      { alongMm: piece.lengthMm, acrossMm: piece.widthMm },
    ].filter((way) => way.acrossMm <= vehicle.widthMm);
    const beside = ways.filter((way) => usedMm + way.acrossMm <= vehicle.widthMm);
    // Beside its neighbour where the row grows least; otherwise in a new row, as shallow as may be.
    const inRow = shallowest(beside, rowDepthMm);
    const fresh = shallowest(ways, 0);
    if (fresh === undefined) return null;
    const growsMm = inRow === undefined ? Number.POSITIVE_INFINITY : Math.max(0, inRow.alongMm - rowDepthMm);
    const way = inRow !== undefined && growsMm <= fresh.alongMm ? inRow : fresh;
    if (way !== inRow) {
      rowMm += rowDepthMm;
      rowDepthMm = 0;
      usedMm = 0;
    }
    rowDepthMm = Math.max(rowDepthMm, way.alongMm);
    if (rowMm + rowDepthMm > vehicle.lengthMm) return null;
    loaded.push({ id: piece.id, fromBulkheadMm: rowMm, fromSideMm: usedMm, ...way });
    usedMm += way.acrossMm;
  }
  return loaded;
};

interface Footprint {
  readonly alongMm: number;
  readonly acrossMm: number;
}

/** The way that deepens a row least; of equals, the one that takes least of its width. */
const shallowest = (ways: readonly Footprint[], rowDepthMm: number): Footprint | undefined =>
  [...ways].sort(
    (p, q) => Math.max(rowDepthMm, p.alongMm) - Math.max(rowDepthMm, q.alongMm) || p.acrossMm - q.acrossMm,
  )[0];

const tripOf = (aboard: readonly DeliveryPiece[], loaded: readonly LoadedPiece[], vehicle: Vehicle): Trip => {
  const areaMm2 = loaded.reduce((sum, piece) => sum + piece.alongMm * piece.acrossMm, 0);
  return {
    loaded,
    unloadingOrder: aboard.map((piece) => piece.id),
    count: aboard.length,
    massKg: massOf(aboard),
    floorAreaM2: areaMm2 / 1e6,
    floorShare: areaMm2 / (vehicle.lengthMm * vehicle.widthMm),
  };
};
